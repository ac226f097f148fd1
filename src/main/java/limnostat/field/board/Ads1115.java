package limnostat.field.board;

import com.pi4j.context.Context;
import com.pi4j.io.i2c.I2C;
import java.util.Locale;
import java.util.function.LongSupplier;
import limnostat.config.FieldSettings.AdcInput;
import limnostat.field.FieldException;
import limnostat.measure.Signal;

/**
 * One 16-bit converter of the ADS1115 class, used for one conversion at a time. Registers, bits and
 * codes are those of its data sheet (from memory). Only the thread of its bus uses it: a read takes
 * some 10 ms, and a bus can hang.
 */
final class Ads1115 {
  private static final int CONVERSION_REGISTER = 0x00;
  private static final int CONFIG_REGISTER = 0x01;

  /** Written: start a conversion. Read: no conversion is in progress. */
  private static final int START_OR_IDLE = 1 << 15;

  /** AIN0 against ground; the next three follow. */
  private static final int INPUT_0_TO_GROUND = 0b100 << 12;

  private static final int SINGLE_SHOT = 1 << 8;
  private static final int RATE_128_PER_S = 0b100 << 5;
  private static final int COMPARATOR_OFF = 0b11;

  private static final int CODES_HALF = 32_768;

  /** One conversion at 128 a second is 7.8 ms, and the chip's own clock is within 10 %. */
  private static final long CONVERSION_MS = 9;

  private static final int POLLS_MAX = 6;
  private static final long POLL_MS = 2;

  private final int bus;
  private final int address;
  private final Context context;
  private final LongSupplier nowNs;
  private final Retry retry = new Retry();
  private I2C device;
  private String problem;

  Ads1115(int bus, int address, Context context, LongSupplier nowNs) {
    this.bus = bus;
    this.address = address;
    this.context = context;
    this.nowNs = nowNs;
  }

  /**
   * One conversion, in the unit of the role. A chip that has failed is not read again for a while.
   */
  Signal read(AdcInput input) {
    if (!retry.due(nowNs.getAsLong())) {
      return new Signal.Missing(problem);
    }
    try {
      int code = convert(input);
      retry.succeeded();
      return signal(input, code);
    } catch (FieldException | RuntimeException e) {
      problem = place() + ": " + Causes.innermost(e) + "; " + mend();
      retry.failed(nowNs.getAsLong());
      return new Signal.Missing(problem);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return new Signal.Missing(place() + ": the field is closing");
    }
  }

  /** The configuration word that starts one conversion of the input. */
  static int startWord(AdcInput input) {
    return START_OR_IDLE
        | (INPUT_0_TO_GROUND + (input.channel() << 12))
        | (rangeCode(input.fullScaleMv()) << 9)
        | SINGLE_SHOT
        | RATE_128_PER_S
        | COMPARATOR_OFF;
  }

  /**
   * What a code means: converter mV = code · full scale / 2¹⁵, then value = (mV − zero) / gain. A
   * code at either end of the scale gives no value, since the voltage may lie beyond the scale.
   */
  static Signal signal(AdcInput input, int code) {
    if (code == CODES_HALF - 1 || code == -CODES_HALF) {
      return new Signal.Missing(
          String.format(
              Locale.ROOT,
              "converter at its limit: %s mV or beyond at address 0x%02x channel %d; check the wire"
                  + " and the front end, or set a wider range",
              (code < 0 ? "-" : "") + input.fullScaleMv(),
              input.address(),
              input.channel()));
    }
    double converterMv = code * (double) input.fullScaleMv() / CODES_HALF;
    return new Signal.Analog((converterMv - input.zeroMv()) / input.gain());
  }

  private int convert(AdcInput input) throws FieldException, InterruptedException {
    if (device == null) {
      device =
          context.create(
              I2C.newConfigBuilder(context)
                  .id("limnostat-i2c-" + bus + "-" + address)
                  .bus(bus)
                  .device(address)
                  .build());
    }
    int start = startWord(input);
    device.writeRegister(CONFIG_REGISTER, new byte[] {(byte) (start >> 8), (byte) start});
    Thread.sleep(CONVERSION_MS);
    awaitIdle(start);
    return (short) readWord(CONVERSION_REGISTER);
  }

  /**
   * Waits for the end of the conversion. The chip returns its configuration with that bit, which
   * distinguishes a chip from a stuck bus: all ones would otherwise pass as a reading just below
   * zero.
   */
  private void awaitIdle(int start) throws FieldException, InterruptedException {
    for (int poll = 0; poll < POLLS_MAX; poll++) {
      int config = readWord(CONFIG_REGISTER);
      if ((config | START_OR_IDLE) != start) {
        throw new FieldException(
            String.format(
                Locale.ROOT,
                "answers 0x%04x where its configuration 0x%04x was written",
                config,
                start));
      }
      if ((config & START_OR_IDLE) != 0) {
        return;
      }
      Thread.sleep(POLL_MS);
    }
    throw new FieldException(
        "conversion not done after " + (CONVERSION_MS + POLLS_MAX * POLL_MS) + " ms");
  }

  private int readWord(int register) throws FieldException {
    byte[] word = new byte[2];
    int read = device.readRegister(register, word, 0, word.length);
    if (read != word.length) {
      throw new FieldException("register " + register + " gave " + read + " of 2 bytes");
    }
    return ((word[0] & 0xff) << 8) | (word[1] & 0xff);
  }

  private static int rangeCode(int fullScaleMv) {
    return switch (fullScaleMv) {
      case 6144 -> 0;
      case 4096 -> 1;
      case 2048 -> 2;
      case 1024 -> 3;
      case 512 -> 4;
      case 256 -> 5;
      default ->
          throw new IllegalArgumentException(
              "full scale " + fullScaleMv + " mV; the converter has 256, 512, ... 4096, 6144 mV");
    };
  }

  private String place() {
    return String.format(Locale.ROOT, "I2C bus %d address 0x%02x", bus, address);
  }

  private String mend() {
    return device == null
        ? "enable the bus in the board's boot configuration and let this user open /dev/i2c-" + bus
        : "check the converter's power, wires and address pin";
  }
}
