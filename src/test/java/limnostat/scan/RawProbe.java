package limnostat.scan;

import limnostat.measure.MeasureSettings;
import limnostat.measure.ProbeSettings;
import limnostat.measure.Role;
import limnostat.measure.Signal;

/** A probe's raw signal, judged by what cannot be good whatever the water does. */
final class RawProbe {
  /** An electrode gives no more at 4 pH from its zero and 45 °C: 63.1 mV a unit, mV. */
  private static final double GLASS_MOST_MV = 253;

  private final Role role;
  private boolean bad;
  private boolean failed;
  private double badS;
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
