package limnostat.plant;

import java.util.Map;
import limnostat.measure.Role;
import limnostat.measure.Signal;

/** What gives chlorine when its relay is on. */
sealed interface Doser permits Cell, LiquidFeeder, Tablets {

  /**
   * Feeds for a step.
   *
   * @param command 0–1
   * @param flows whether water moves past it
   * @param line the water at the point of dosing
   */
  Fed feed(double dtS, double command, boolean flows, Water line);

  /** What it tells by wire, as of the last step. */
  Map<Role, Signal> signals();

  /** How hard its gas strips carbon dioxide from the water, over its full current. */
  double strippingFraction();
}
