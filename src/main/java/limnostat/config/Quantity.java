package limnostat.config;

import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A number with a unit, written as a string: {@code "50 m3"}.
 *
 * @param shownIn the unit in which the range is given and values are shown
 */
record Quantity(Dimension dimension, Unit shownIn, Range range) implements Form<Double> {
  private static final Pattern NUMBER_AND_UNIT =
      Pattern.compile("\\s*([+-]?\\d+(?:\\.\\d+)?(?:[eE][+-]?\\d{1,3})?)\\s*(\\S*)\\s*");

  /** A quantity within bounds, which are in the given unit. */
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
    if (toml instanceof Long || (toml instanceof Double number && !number.isNaN())) {
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
      unknownUnit(text, matcher.group(1), matcher.group(2), refusals);
      return Optional.empty();
    }
    double value = unit.get().toProgram(Double.parseDouble(matcher.group(1)));
    boolean above = value > shownIn.toProgram(range.max());
    if (above || value < shownIn.toProgram(range.min())) {
      range.refuse(above, toml, refusals);
      return Optional.empty();
    }
    return Optional.of(value);
  }

  private void unknownUnit(String text, String number, String unit, Refusals refusals) {
    refusals.refuse(
        Written.value(text) + " has the unknown unit '" + unit + "'",
        "units: " + dimension.unitNames(),
        Nearest.to(unit, dimension.units().stream().map(Unit::name).toList())
            .map(near -> "perhaps \"" + number + " " + near + "\" is meant")
            .orElse("write it in one of these units"));
  }

  /** A unit is never guessed: each in which the number is possible is offered. */
  private Optional<Double> withoutUnit(String number, Refusals refusals) {
    double written = Double.parseDouble(number);
    List<String> possible =
        dimension.units().stream()
            .filter(unit -> range.contains(shownIn.fromProgram(unit.toProgram(written))))
            .map(unit -> '"' + number + " " + unit.name() + '"')
            .toList();
    refusals.refuse(
        number + " has no unit",
        "units: " + dimension.unitNames(),
        possible.isEmpty()
            ? "write for instance " + example()
            : "write which it is: " + String.join(" or ", possible));
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
