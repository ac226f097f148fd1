package limnostat.config;

import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;

/**
 * The kinds of quantity and the units that a person may write them in. Units that a person writes
 * are converted only here. The first unit of each kind is the program's own.
 *
 * <p>US factors are exact. The gallon is 231 cubic inches, with an inch of 25.4 mm. The fluid ounce
 * is 1/128 gallon. The pound is 453.59237 g (1959 agreement), and the ounce is 1/16 pound.
 */
enum Dimension {
  VOLUME(new Unit("m3", 1), new Unit("L", 1, 1000), new Unit("gal", 3.785411784, 1000)),
  /** In water 1 ppm is 1 mg/kg. It is taken as 1 mg/L, as is usual in the trade. */
  CONCENTRATION(new Unit("mg/L", 1), new Unit("ppm", 1)),
  POTENTIAL(new Unit("mV", 1), new Unit("V", 1000)),
  TEMPERATURE(new Unit("degC", 1), new Unit("degF", 5, 9, 32)),
  /** A difference between two temperatures, so there is no offset. */
  TEMPERATURE_STEP(new Unit("degC", 1), new Unit("degF", 5, 9)),
  FLOW(new Unit("L/min", 1), new Unit("gal/min", 3.785411784), new Unit("m3/h", 1000, 60)),
  MASS(
      new Unit("g", 1),
      new Unit("kg", 1000),
      new Unit("oz", 28.349523125),
      new Unit("lb", 453.59237)),
  LIQUID(
      new Unit("mL", 1),
      new Unit("L", 1000),
      new Unit("fl_oz", 29.5735295625),
      new Unit("gal", 3785.411784)),
  MASS_RATE(new Unit("g/h", 1), new Unit("kg/day", 1000, 24), new Unit("lb/day", 453.59237, 24)),
  LIQUID_RATE(
      new Unit("mL/h", 1),
      new Unit("L/h", 1000),
      new Unit("mL/min", 60),
      new Unit("gal/day", 3785.411784, 24)),
  CURRENT(new Unit("A", 1), new Unit("mA", 1, 1000)),
  TIME(new Unit("s", 1), new Unit("min", 60), new Unit("h", 3600), new Unit("d", 86400)),
  ANGLE(new Unit("deg", 1));

  // Unit is an immutable record, and the list is unmodifiable.
  @SuppressWarnings("ImmutableEnumChecker")
  private final List<Unit> units;

  Dimension(Unit... units) {
    this.units = List.of(units);
  }

  Optional<Unit> unit(String name) {
    return units.stream().filter(unit -> unit.name().equals(name)).findFirst();
  }

  /** The accepted units, for people. */
  String unitNames() {
    return units.stream().map(Unit::name).collect(Collectors.joining(", "));
  }

  List<Unit> units() {
    return units;
  }
}
