package limnostat.measure;

import java.util.Arrays;
import java.util.Optional;

/**
 * What a field signal is for. The key is the name of the role on the wire and in the configuration.
 */
public enum Role {
  /** Raw electrode potential, platinum against its reference, mV, before calibration. */
  ORP_MV("orp_mv", Kind.ANALOG),
  /** Glass electrode potential before calibration, mV; acid is positive. */
  PH_MV("ph_mv", Kind.ANALOG),
  /** Water temperature, °C. */
  WATER_C("water_c", Kind.ANALOG),
  /** Flow switch (closed: water moves) or flow meter (L/min), as configured. */
  FLOW("flow", Kind.EITHER),
  /** Current of the salt cell, A. */
  CELL_A("cell_a", Kind.ANALOG),
  /** Voltage of the salt cell, V. */
  CELL_V("cell_v", Kind.ANALOG),
  /** Level switch of the chlorine feeder's tank; true: low. */
  TANK_LOW("tank_low", Kind.CONTACT),
  /** Pool cover; true: closed. */
  COVER_CLOSED("cover_closed", Kind.CONTACT),
  /** Contact of the circulation pump; true: the pump runs. */
  PUMP_ON("pump_on", Kind.CONTACT),
  /** Pyranometer, W/m². */
  SOLAR_W_M2("solar_w_m2", Kind.ANALOG),
  /** Level switch of the acid tank; true: low. */
  ACID_TANK_LOW("acid_tank_low", Kind.CONTACT);

  /** The kind of signal that a role takes. */
  public enum Kind {
    ANALOG,
    CONTACT,
    EITHER
  }

  private final String key;
  private final Kind kind;

  Role(String key, Kind kind) {
    this.key = key;
    this.kind = kind;
  }

  public String key() {
    return key;
  }

  public Kind kind() {
    return kind;
  }

  public static Optional<Role> ofKey(String key) {
    return Arrays.stream(values()).filter(role -> role.key.equals(key)).findFirst();
  }
}
