package limnostat.plant;

import java.util.Map;
import limnostat.measure.Role;
import limnostat.measure.Signal;

/** A device that feeds chlorine when its relay is on. */
sealed interface Doser permits Cell, LiquidFeeder, Tablets {

  /**
   * Feeds for one step.
   *
   * @param command 0–1
   * @param flows whether water moves past it
   * @param line the water at the point of dosing
   */
  Fed feed(double dtS, double command, boolean flows, Water line);

  /** Its wired signals, as of the last step. */
  Map<Role, Signal> signals();

  /**
   * How strongly its gas strips carbon dioxide from the water, as a fraction of that at full
   * current.
   */
  double strippingFraction();
}
