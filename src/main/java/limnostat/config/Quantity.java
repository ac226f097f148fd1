package limnostat.config;

import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A number with a unit, written as a text: {@code "50 m3"}.
 *
 * @param shownIn the unit that the range is given and values are shown in
 */
record Quantity(Dimension dimension, Unit shownIn, Range range) implements Form<Double> {
  private static final Pattern NUMBER_AND_UNIT =
      Pattern.compile("\\s*([+-]?\\d+(?:\\.\\d+)?(?:[eE][+-]?\\d{1,3})?)\\s*(\\S*)\\s*");

  /** A quantity within bounds that are given in the unit named. */
  static Quantity of(Dimension dimension, String unit, double min, double max) {
    return new Quantity(dimension, dimension.unit(unit).orElseThrow(), Range.of(min, max, unit));
  }

  Quantity withHardMin() {
    return new Quantity(dimension, shownIn, range.withHardMin());
  }

  Quantity withHardMax() {
    return new Quantity(dimension, shownIn, range.withHardMax());
  }

  @Override
  public Optional<Double> parse(Object toml, Refusals refusals) {
    if (toml instanceof Long || toml instanceof Double) {
      return withoutUnit(String.valueOf(toml), refusals);
    }
    if (!(toml instanceof String text)) {
      refusals.refuse(
          "is " + Written.type(toml), "a quantity with a unit in quotes", "write " + example());
      return Optional.empty();
    }
    Matcher matcher = NUMBER_AND_UNIT.matcher(text);
    if (!matcher.matches()) {
      refusals.refuse(
          Written.value(toml) + " is not a number with a unit",
          "units: " + dimension.unitNames(),
          "write for instance " + example() + ", with a point for decimals");
      return Optional.empty();
    }
    if (matcher.group(2).isEmpty()) {
      return withoutUnit(matcher.group(1), refusals);
    }
    Optional<Unit> unit = dimension.unit(matcher.group(2));
    if (unit.isEmpty()) {
      refusals.refuse(
          Written.value(toml) + " has the unknown unit '" + matcher.group(2) + "'",
          "units: " + dimension.unitNames(),
          "write for instance " + example());
      return Optional.empty();
    }
    double value = unit.get().toProgram(Double.parseDouble(matcher.group(1)));
    Range inProgramUnit =
        new Range(
            shownIn.toProgram(range.min()),
            shownIn.toProgram(range.max()),
            range.hardMin(),
            range.hardMax(),
            "");
    if (value >= inProgramUnit.min() && value <= inProgramUnit.max()) {
      return Optional.of(value);
    }
    range.accepts(
        value > inProgramUnit.max() ? Double.MAX_VALUE : -Double.MAX_VALUE, toml, refusals);
    return Optional.empty();
  }

  private Optional<Double> withoutUnit(String number, Refusals refusals) {
    refusals.refuse(
        number + " has no unit",
        "units: " + dimension.unitNames(),
        "write for instance \"" + number + " " + shownIn.name() + "\"");
    return Optional.empty();
  }

  private String example() {
    return '"' + range.show(range.max()) + '"';
  }

  @Override
  public String limits() {
    return range.limits();
  }

  @Override
  public String show(Double value) {
    return range.show(shownIn.fromProgram(value));
  }

  @Override
  public Optional<String> hardBound() {
    return range.hardBound();
  }
}
