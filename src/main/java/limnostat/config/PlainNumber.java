package limnostat.config;

import java.util.Optional;

/** A dimensionless number, written without a unit; an integer is accepted too. */
record PlainNumber(Range range) implements Form<Double> {
  static PlainNumber of(double min, double max) {
    return new PlainNumber(Range.of(min, max, ""));
  }

  @Override
  public Optional<Double> parse(Object toml, Refusals refusals) {
    boolean number = toml instanceof Long || toml instanceof Double;
    if (!number || Double.isNaN(valueOf(toml))) {
      refusals.refuse(
          Written.value(toml) + " is " + Written.type(toml),
          "a plain number, " + limits(),
          "write it without quotes and unit");
      return Optional.empty();
    }
    double value = valueOf(toml);
    if (!range.contains(value)) {
      range.refuse(value > range.max(), toml, refusals);
      return Optional.empty();
    }
    return Optional.of(value);
  }

  private static double valueOf(Object toml) {
    return ((Number) toml).doubleValue();
  }

  @Override
  public String limits() {
    return range.limits();
  }

  @Override
  public String show(Double value) {
    return Written.number(value);
  }

  @Override
  public Optional<String> hardBound() {
    return range.hardBound();
  }
}
