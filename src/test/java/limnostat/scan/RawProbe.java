package limnostat.scan;

import limnostat.actuate.Output;
import limnostat.measure.MeasureSettings;
import limnostat.measure.ProbeSettings;
import limnostat.measure.Role;
import limnostat.measure.Signal;
import limnostat.safety.Effect;

/** A probe's raw signal, judged by what cannot be good whatever the water does. */
final class RawProbe {
  /** An electrode gives no more at 4 pH from its zero and 45 °C: 63.1 mV a unit, mV. */
  private static final double GLASS_MOST_MV = 253;

  private final Role role;
  private boolean bad;
  private boolean failed;
  private double badS;
  private double blindS = -1;
  private double stillS;
  private double still = Double.NaN;

  RawProbe(Role role) {
    this.role = role;
  }

  /** On this scan, in the pool's own water. */
  boolean bad() {
    return bad;
  }

  /** For longer than a value may be held. */
  boolean failed() {
    return failed;
  }

  /** For how long chlorine has been fed without it, s; -1: it has not. */
  double blindS() {
    return blindS;
  }

  void look(Seen seen) {
    MeasureSettings settings = seen.settings().measure();
    ProbeSettings probe = settings(settings);
    double value = seen.in().signals().of(role) instanceof Signal.Analog a ? a.value() : Double.NaN;
    boolean pool = seen.out().measured().poolWater();
    // Nobody looked during an interruption; a new process may have an older state.
    double sawS = seen.interrupted() ? 0 : seen.in().elapsedS();
    boolean goesOn = !seen.start().newProcess();
    boolean same = value == still && pool && !seen.interrupted();
    stillS = same ? stillS + sawS : 0;
    still = pool ? value : Double.NaN;
    boolean frozen = probe.freezeS() > 0 && stillS >= probe.freezeS() + Rule.ROUNDING;
    bad = pool && (frozen || !sound(seen, value));
    badS = bad && goesOn ? badS + sawS : 0;
    // The scan on which it began is not counted, so there is one more to come.
    failed = bad && (frozen || badS > probe.staleS() + 60);
    boolean limited = seen.out().permission().of(Output.CHLORINE) == Effect.LIMIT;
    blindS =
        !failed ? -1 : blindS >= 0 && goesOn ? blindS + seen.in().elapsedS() : limited ? 0 : -1;
  }

  private ProbeSettings settings(MeasureSettings settings) {
    return switch (role) {
      case ORP_MV -> settings.orp();
      case PH_MV -> settings.ph();
      default -> settings.water();
    };
  }

  private boolean sound(Seen seen, double value) {
    MeasureSettings settings = seen.settings().measure();
    return switch (role) {
      case ORP_MV -> within(settings.orp(), value + seen.orpOffsetMv());
      case PH_MV -> value >= -GLASS_MOST_MV && value <= GLASS_MOST_MV;
      default -> within(settings.water(), value);
    };
  }

  private static boolean within(ProbeSettings settings, double value) {
    return value >= settings.rangeMin() && value <= settings.rangeMax(); // NaN is not
  }
}
