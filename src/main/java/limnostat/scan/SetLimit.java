package limnostat.scan;

import java.math.BigDecimal;

/**
 * A bound on a value that may be set at run time, with the layer that it belongs to. A setpoint
 * stays within the installer's limits, and those stay within the program's hard bounds.
 *
 * @param name the bound's name for people
 */
record SetLimit(double value, String name) {
  static SetLimit hard(double value) {
    return new SetLimit(value, "the program's hard bound");
  }

  /**
   * @param option its path in the configuration file
   */
  static SetLimit installer(double value, String option) {
    return new SetLimit(value, "the installer's limit " + option);
  }

  /** The narrower of two upper bounds. */
  SetLimit orLower(SetLimit other) {
    return other.value < value ? other : this;
  }

  /**
   * @param unit with its leading space, or empty
   */
  static void within(String field, double value, SetLimit low, SetLimit high, String unit)
      throws Refusal {
    if (!Double.isFinite(value)) {
      throw new Refusal(field + " " + value + " is not a number");
    }
    if (value < low.value) {
      throw low.refusal(field, value, "below", unit);
    }
    if (value > high.value) {
      throw high.refusal(field, value, "above", unit);
    }
  }

  private Refusal refusal(String field, double asked, String side, String unit) {
    return new Refusal(
        field + " " + text(asked) + unit + " is " + side + " " + name + " = " + text(value) + unit);
  }

  /** Uses plain digits if there are few. */
  private static String text(double value) {
    boolean few = value == 0 || (Math.abs(value) >= 1e-6 && Math.abs(value) < 1e9);
    return few
        ? BigDecimal.valueOf(value).stripTrailingZeros().toPlainString()
        : Double.toString(value);
  }
}
