package limnostat.scan;

import java.util.EnumMap;
import java.util.Map;
import limnostat.actuate.Output;
import limnostat.actuate.OutputSettings;
import limnostat.actuate.OutputSettings.Drive;
import limnostat.control.Mode;
import limnostat.measure.Measurement;
import limnostat.measure.Role;
import limnostat.measure.Signal;
import limnostat.safety.Cause;

/**
 * S4: while a probe's raw signal is missing, no number, out of range or frozen, ORP contradicts the
 * estimate or only falls, the thermometer contradicts the balance of heat, or the cover is closed,
 * chlorine gets at most the learned demand. What is fed while nothing trustworthy measures chlorine
 * is counted in {@link BlindCount}. With a pH that is bad there is no acid.
 */
final class SignalRule implements Rule {
  private static final Role[] PROBES = {Role.ORP_MV, Role.PH_MV, Role.WATER_C};

  private final Map<Role, RawProbe> probes = new EnumMap<>(Role.class);
  private final BlindCount count = new BlindCount();
  private double boundBefore;
  private double fedS;
  private double allowedS = Double.NaN;

  @Override
  public void check(Seen seen) {
    boolean blind =
        seen.out().estimate().consistency().lost()
            || seen.out().permission().active().contains(Cause.ORP_FALLING)
            || seen.out().measured().upkeep().waterDisagrees();
    boolean good = seen.out().measured().poolWater();
    for (Role role : PROBES) {
      RawProbe probe = probes.computeIfAbsent(role, RawProbe::new);
      probe.look(seen);
      boolean bad = probe.bad();
      Rule.require(
          !(bad && measured(seen, role).fresh()),
          () -> "S4: a bad signal is taken for good, " + role);
      blind |= probe.failed();
      good &= !bad;
    }
    boolean limited = blind || coverClosed(seen);
    boolean noPh = probes.get(Role.PH_MV).failed();
    Rule.require(!(noPh && seen.on(Output.ACID)), () -> "S4: acid on, pH failed");
    count.look(seen, blind, good && !blind);
    double bound = bound(seen);
    boolean auto = seen.out().state().control().mode() == Mode.AUTO;
    boolean orp = seen.out().measured().orpMv().fresh();
    double demanded = seen.out().demand().chlorineDuty();
    Rule.require(
        !auto || orp || demanded <= bound + ROUNDING,
        () -> "S4: without ORP " + demanded + " is demanded, bound " + bound);
    within(seen, limited, bound);
    boundBefore = bound;
  }

  /** u = d V/(r t), with the learned demand d and the pump's day t. */
  private static double bound(Seen seen) {
    double perDayG = seen.out().estimate().demandMgLDay() * seen.settings().estimate().volumeM3();
    double mostG =
        seen.settings().chlorine().caps().ratePerH() * seen.settings().control().pumpS() / 3600;
    return Math.min(1, perDayG / mostG);
  }

  /** A proportional output on every scan; of a relay what it is on for, less what it may owe. */
  private void within(Seen seen, boolean limited, double bound) {
    OutputSettings output = seen.settings().chlorine().output();
    if (output.drive() == Drive.PROPORTIONAL) {
      double gives = seen.out().outputs().chlorine();
      Rule.require(
          !limited || gives <= bound + ROUNDING,
          () -> "S4: " + gives + " with a bad signal, bound " + bound);
      return;
    }
    if (!limited || seen.interrupted()) {
      allowedS = limited ? 2 * output.cycleS() + output.minOnS() + 60 : Double.NaN;
      fedS = 0;
      return;
    }
    if (Double.isNaN(allowedS)) {
      allowedS = 2 * output.cycleS() + output.minOnS() + 60;
      fedS = 0;
      return;
    }
    // A half more: what is given ahead beyond a cycle is forgotten.
    allowedS += 1.5 * boundBefore * seen.in().elapsedS();
    fedS += seen.driven().chlorine() * (seen.drivenUntilS() - seen.lastS());
    Rule.require(
        fedS <= allowedS, () -> "S4: on for " + fedS + " s with a bad signal, of " + allowedS);
  }

  private static boolean coverClosed(Seen seen) {
    return seen.settings().measure().fitted().contains(Role.COVER_CLOSED)
        && seen.in().signals().of(Role.COVER_CLOSED) instanceof Signal.Contact c
        && c.closed();
  }

  private static Measurement measured(Seen seen, Role role) {
    return switch (role) {
      case ORP_MV -> seen.out().measured().orpMv();
      case PH_MV -> seen.out().measured().ph();
      default -> seen.out().measured().waterC();
    };
  }
}
