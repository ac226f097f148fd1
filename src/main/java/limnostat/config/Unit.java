package limnostat.config;

/**
 * A unit that a person may write. The value in the program's unit is {@code (written - zero) *
 * numerator / denominator}. It is a ratio, so that round figures convert without a rounding error.
 */
record Unit(String name, double numerator, double denominator, double zero) {
  Unit(String name, double factor) {
    this(name, factor, 1, 0);
  }

  Unit(String name, double numerator, double denominator) {
    this(name, numerator, denominator, 0);
  }

  double toProgram(double written) {
    return (written - zero) * numerator / denominator;
  }

  double fromProgram(double value) {
    return value * denominator / numerator + zero;
  }
}
