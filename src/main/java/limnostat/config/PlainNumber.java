package limnostat.config;

import java.util.Optional;

/** A number without dimension, written as one: an integer will do. */
record PlainNumber(Range range) implements Form<Double> {
  static PlainNumber of(double min, double max) {
    return new PlainNumber(Range.of(min, max, ""));
  }

  @Override
  public Optional<Double> parse(Object toml, Refusals refusals) {
    if (toml instanceof Long || toml instanceof Double) {
      double value = ((Number) toml).doubleValue();
      return range.accepts(value, toml, refusals) ? Optional.of(value) : Optional.empty();
    }
    refusals.refuse(
        Written.value(toml) + " is " + Written.type(toml),
        "a plain number, " + limits(),
        "write it without quotes and unit");
    return Optional.empty();
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
