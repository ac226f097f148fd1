package limnostat.config;

import java.util.Optional;

/**
 * Inclusive bounds of a number, in the unit in which they are shown.
 *
 * @param min lowest value
 * @param max highest value
 * @param hardMin whether the lower bound is the program's own
 * @param hardMax whether the upper bound is the program's own
 * @param unit the unit for people, empty for a plain number
 */
record Range(double min, double max, boolean hardMin, boolean hardMax, String unit) {
  static final String HARD = "the program's hard bound";

  static Range of(double min, double max, String unit) {
    return new Range(min, max, false, false, unit);
  }

  Range withHardMin() {
    return new Range(min, max, true, hardMax, unit);
  }

  Range withHardMax() {
    return new Range(min, max, hardMin, true, unit);
  }

  String show(double value) {
    return unit.isEmpty() ? Written.number(value) : Written.number(value) + " " + unit;
  }

  String limits() {
    return show(min) + " to " + show(max);
  }

  Optional<String> hardBound() {
    if (hardMax) {
      return Optional.of("at most " + show(max));
    }
    return hardMin ? Optional.of("at least " + show(min)) : Optional.empty();
  }

  boolean contains(double value) {
    return value >= min && value <= max;
  }

  /** Refuses a value, as written, that is above or below the range. */
  void refuse(boolean above, Object toml, Refusals refusals) {
    refusals.refuse(
        Written.value(toml) + (above ? " is too high" : " is too low"),
        (above ? "at most " + show(max) : "at least " + show(min))
            + ((above ? hardMax : hardMin) ? " (" + HARD + ")" : ""),
        "choose a value from " + limits());
  }
}
