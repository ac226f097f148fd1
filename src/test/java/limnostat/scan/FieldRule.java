package limnostat.scan;

import limnostat.actuate.Output;
import limnostat.measure.Role;
import limnostat.measure.Signal;
import limnostat.safety.SafetyLimits;

/**
 * S4 and S8 of what the field says on this very scan: a contact that cannot be read counts as the
 * worse of its states, nothing is fed outside the installer's windows of pH and temperature, nor by
 * a board that does not follow.
 */
final class FieldRule implements Rule {
  @Override
  public void check(Seen seen) {
    off(seen, !seen.in().outputsDriven(), "S4: board not driven", true, true);
    off(seen, unless(seen, Role.PUMP_ON, true), "S4: pump off or unread", true, true);
    off(seen, unless(seen, Role.TANK_LOW, false), "S4: tank low or unread", true, false);
    off(seen, unless(seen, Role.ACID_TANK_LOW, false), "S4: acid low or unread", false, true);
    boolean contradicted = seen.out().measured().upkeep().phDisagrees();
    off(seen, contradicted, "S4: pH contradicts tests", false, true);
    boolean unexplained = seen.out().measured().upkeep().phUnexplained();
    off(seen, unexplained, "S4: pH moves as water cannot", false, true);
    boolean inVain = seen.out().state().safety().watched().acid().unanswered();
    off(seen, inVain, "S10: acid in vain", false, true);

    SafetyLimits limits = seen.settings().limits();
    boolean thermometer = seen.out().measured().waterC().fresh();
    double waterC = thermometer ? analog(seen, Role.WATER_C) : 25;
    if (thermometer) {
      off(seen, waterC >= limits.waterMaxC(), "S8: water at " + waterC, true, true);
      off(seen, waterC <= limits.waterMinC(), "S8: water at " + waterC, true, false);
    }
    if (seen.out().measured().ph().fresh()) {
      double heldC =
          seen.out().measured().upkeep().waterDisagrees()
              ? 25
              : seen.out().measured().waterC().orElse(25);
      double ph = seen.ph(analog(seen, Role.PH_MV), heldC);
      off(seen, ph <= limits.phDosingMin() - 1e-4, "S8: pH " + ph, true, true);
      off(seen, ph >= limits.phDosingMax() + 1e-4, "S8: pH " + ph, true, false);
    }
  }

  private static boolean unless(Seen seen, Role role, boolean well) {
    return seen.settings().measure().fitted().contains(role)
        && !(seen.in().signals().of(role) instanceof Signal.Contact c && c.closed() == well);
  }

  private static double analog(Seen seen, Role role) {
    return ((Signal.Analog) seen.in().signals().of(role)).value();
  }

  private static void off(Seen seen, boolean when, String what, boolean chlorine, boolean acid) {
    Rule.require(
        !(when && chlorine && seen.on(Output.CHLORINE)), () -> what + ", and chlorine is on");
    Rule.require(!(when && acid && seen.on(Output.ACID)), () -> what + ", and acid is on");
  }
}
