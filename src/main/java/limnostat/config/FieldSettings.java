package limnostat.config;

import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import limnostat.actuate.Output;
import limnostat.measure.Role;

/** Where the signals come from and go to. */
public sealed interface FieldSettings {

  /**
   * A simulated pool; no hardware is touched.
   *
   * @param seed seed of everything random in it
   */
  record Simulated(long seed) implements FieldSettings {}

  /**
   * A single-board computer.
   *
   * @param i2cBus number of the I2C bus of the converters
   * @param analog converter inputs by role
   * @param thermometer 1-wire thermometer
   * @param contacts input lines by role
   * @param pulses a pulse flow meter, instead of a contact for {@link Role#FLOW}
   * @param relays output lines by output
   * @param pumpRelay line that requests the circulation pump, where fitted
   * @param heartbeatLine line that toggles on each complete scan, where wired
   * @param sysfs root of the sysfs tree; {@code /sys} except in tests and containers
   */
  record Board(
      int i2cBus,
      Map<Role, AdcInput> analog,
      Optional<OneWire> thermometer,
      Map<Role, LineIn> contacts,
      Optional<PulseIn> pulses,
      Map<Output, LineOut> relays,
      Optional<LineOut> pumpRelay,
      OptionalInt heartbeatLine,
      Path sysfs)
      implements FieldSettings {

    /** Without a heartbeat. */
    public Board(
        int i2cBus,
        Map<Role, AdcInput> analog,
        Optional<OneWire> thermometer,
        Map<Role, LineIn> contacts,
        Optional<PulseIn> pulses,
        Map<Output, LineOut> relays,
        Optional<LineOut> pumpRelay,
        Path sysfs) {
      this(
          i2cBus,
          analog,
          thermometer,
          contacts,
          pulses,
          relays,
          pumpRelay,
          OptionalInt.empty(),
          sysfs);
    }
  }

  /**
   * One input of a 16-bit converter of the ADS1115 class.
   *
   * @param address I2C address, 0x48–0x4B
   * @param channel 0–3 against ground
   * @param fullScaleMv programmable range, mV: 256, 512, 1024, 2048, 4096 or 6144
   * @param zeroMv output of the front end at zero, mV
   * @param gain mV at the converter per unit of the role (mV, A, V, W/m²)
   */
  record AdcInput(int address, int channel, int fullScaleMv, double zeroMv, double gain) {}

  /**
   * @param id device id as in sysfs, {@code 28-...}
   */
  record OneWire(String id) {}

  /** A contact input; with activeLow the contact is closed when the line is low. */
  record LineIn(int line, boolean activeLow, Pull pull) {}

  /** A relay output; with activeLow the relay is on when the line is low. */
  record LineOut(int line, boolean activeLow) {}

  /** A flow meter that gives pulses. */
  record PulseIn(int line, double pulsesPerLitre) {}

  /** Pull resistor of an input line. */
  enum Pull {
    NONE,
    UP,
    DOWN
  }
}
