package limnostat.water;

import java.math.BigDecimal;
import java.math.MathContext;

/**
 * The range in which an equation or a table is valid, both ends included.
 *
 * @param quantity its name, for people
 * @param unit of the bounds; empty for pH and plain numbers
 * @param mend what a person can do about a value outside the range
 */
public record Validity(String quantity, double min, double max, String unit, String mend) {
  /** Range of the equilibrium constants. */
  public static final Validity WATER_C =
      new Validity(
          "water temperature", 0, 40, "degC", "read the thermometer again; nothing here holds");

  public static final Validity PH =
      new Validity("pH", 5, 10, "", "test again; a reading like this is a faulty test or water");

  /** The Davies equation is valid up to about 0.5 mol/L (from memory). */
  public static final Validity IONIC_STRENGTH =
      new Validity("ionic strength", 0, 0.5, "mol/L", "brine is not pool water");

  /**
   * Returns the value if it is in range.
   *
   * @throws OutsideValidityException if it is outside or not a number
   */
  public double check(double value) {
    if (value >= min && value <= max) {
      return value;
    }
    throw new OutsideValidityException(this, value);
  }

  /** The accepted range, for people. */
  public String limits() {
    return shown(min) + " to " + shown(max);
  }

  String shown(double value) {
    String number =
        Double.isFinite(value)
            ? new BigDecimal(value, new MathContext(6)).stripTrailingZeros().toPlainString()
            : String.valueOf(value);
    return unit.isEmpty() ? number : number + " " + unit;
  }
}
