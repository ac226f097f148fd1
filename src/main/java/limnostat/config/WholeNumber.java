package limnostat.config;

import java.util.Locale;
import java.util.Optional;

/** A dimensionless whole number. */
record WholeNumber(long min, long max, boolean hexadecimal) implements Form<Long> {
  static WholeNumber of(long min, long max) {
    return new WholeNumber(min, max, false);
  }

  /** A whole number that is written and shown as an address. */
  static WholeNumber address(long min, long max) {
    return new WholeNumber(min, max, true);
  }

  @Override
  public Optional<Long> parse(Object toml, Refusals refusals) {
    if (!(toml instanceof Long value)) {
      refusals.refuse(
          Written.value(toml) + " is " + Written.type(toml),
          "a whole number, " + limits(),
          "write it without quotes, unit and decimals");
      return Optional.empty();
    }
    if (value < min || value > max) {
      refusals.refuse(
          show(value) + (value > max ? " is too high" : " is too low"),
          value > max ? "at most " + show(max) : "at least " + show(min),
          "choose a value from " + limits());
      return Optional.empty();
    }
    return Optional.of(value);
  }

  @Override
  public String limits() {
    return show(min) + " to " + show(max);
  }

  @Override
  public String show(Long value) {
    return hexadecimal && value >= 0
        ? String.format(Locale.ROOT, "0x%02x", value)
        : Long.toString(value);
  }
}
