package limnostat.water.advice;

import java.util.OptionalDouble;
import limnostat.water.Validity;

/**
 * What a person knows about a pool; any part may be missing. Units are mg/L (alkalinity and
 * hardness as CaCO3, chlorine as Cl2), except volume in m³, temperature in °C and pH.
 */
public record PoolTest(
    OptionalDouble volumeM3,
    OptionalDouble freeChlorineMgL,
    OptionalDouble combinedChlorineMgL,
    OptionalDouble ph,
    OptionalDouble totalAlkalinityMgL,
    OptionalDouble cyanuricAcidMgL,
    OptionalDouble calciumHardnessMgL,
    OptionalDouble saltMgL,
    OptionalDouble temperatureC) {
  private static final String AGAIN = "test again, with fresh reagents";

  /**
   * @throws limnostat.water.OutsideValidityException naming the first value outside the range that
   *     this package covers
   */
  public PoolTest {
    check("volume", volumeM3, 0.1, 5000, "m3", "give the water's volume");
    check("free chlorine", freeChlorineMgL, 0, 50, "mg/L", AGAIN);
    check("combined chlorine", combinedChlorineMgL, 0, 20, "mg/L", AGAIN);
    check("pH", ph, 6, 9, "", AGAIN + "; such water needs a professional");
    check("total alkalinity", totalAlkalinityMgL, 10, 500, "mg/L", AGAIN);
    check("cyanuric acid", cyanuricAcidMgL, 0, 300, "mg/L", AGAIN + ", the sample diluted");
    check("calcium hardness", calciumHardnessMgL, 10, 2000, "mg/L", AGAIN);
    check("salt", saltMgL, 0, 9000, "mg/L", "sea water is not covered; else " + AGAIN);
    temperatureC.ifPresent(Validity.WATER_C::check);
  }

  private static void check(
      String quantity, OptionalDouble value, double min, double max, String unit, String mend) {
    value.ifPresent(new Validity(quantity, min, max, unit, mend)::check);
  }

  /** The temperature, or 25 °C if none was entered: the stabiliser's constants are valid there. */
  public double temperatureOrAssumedC() {
    return temperatureC.orElse(25);
  }

  /** Whether there is stabiliser in the water, which is assumed unless 0 was entered. */
  public boolean stabilised() {
    return cyanuricAcidMgL.orElse(1) > 0;
  }

  /** Salt plus 500 mg/L of other solids, or 1000 mg/L if no salt was entered (judgement). */
  public double dissolvedSolidsMgL() {
    return saltMgL.isPresent() ? saltMgL.getAsDouble() + 500 : 1000;
  }
}
