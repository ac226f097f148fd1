package limnostat.water;

/**
 * Potential of a reference electrode against the standard hydrogen electrode.
 *
 * <p>From a meter manual and a glossary table (secondary sources). Others give 210 (3 mol/L) and
 * 197–199 mV (saturated) at 25 °C: ±3 mV.
 */
// A Table is never modified.
@SuppressWarnings("ImmutableEnumChecker")
public enum ReferenceElectrode {
  SILVER_CHLORIDE_3M_KCL(5, 221, 10, 217, 15, 214, 20, 210, 25, 207, 30, 203, 35, 200, 40, 196),
  SILVER_CHLORIDE_3_5M_KCL(15, 212, 20, 208, 25, 205, 30, 201, 35, 197),
  SILVER_CHLORIDE_SATURATED_KCL(15, 209, 20, 204, 25, 199, 30, 194, 35, 189),
  SATURATED_CALOMEL(15, 251.1, 20, 247.9, 25, 244.4, 30, 241.1, 35, 237.6);

  private final Table againstShe;

  ReferenceElectrode(double... rows) {
    againstShe =
        new Table(
            "temperature of the reference electrode", "degC", "bring it into the table", rows);
  }

  /**
   * Potential against SHE, mV, linear between the rows.
   *
   * @throws OutsideValidityException outside 5–40 °C (3 mol/L) or 15–35 °C (the others)
   */
  public double mvAgainstShe(double temperatureC) {
    return againstShe.read(temperatureC);
  }

  /** Converts a reading against this electrode to Eh, against SHE. */
  public double toSheMv(double readingMv, double temperatureC) {
    return readingMv + mvAgainstShe(temperatureC);
  }

  /** Converts a potential against SHE to a reading against this electrode. */
  public double fromSheMv(double sheMv, double temperatureC) {
    return sheMv - mvAgainstShe(temperatureC);
  }
}
