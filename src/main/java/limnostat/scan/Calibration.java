package limnostat.scan;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import limnostat.measure.MeasureSettings;
import limnostat.measure.PhCalibration;
import limnostat.measure.ProbeHealth;
import limnostat.measure.Role;
import limnostat.water.Nernst;

/**
 * One step of a calibration by command, within the same limits as the file's. It is allowed only in
 * a function check, because the probe does not see the pool then.
 */
final class Calibration {
  /**
   * A probe that still moves by more has not settled, mV (engineering judgement; 1 mV is 0.02 pH).
   */
  static final Map<Role, Double> BANDS_MV = Map.of(Role.PH_MV, 1.0, Role.ORP_MV, 2.0);

  /** The signal must be steady for this long, s (engineering judgement). */
  static final double STILL_S = 30;

  private Calibration() {}

  static ScanState ph(ScanSettings settings, ScanState s, Command.CalibratePh c, Now now)
      throws Refusal {
    MeasureSettings file = settings.measure();
    Calibrations before = s.asked().calibrations();
    double mv = settled(s, Role.PH_MV);
    SetLimit.within("ph", c.bufferPh(), SetLimit.hard(1), SetLimit.hard(13), "");
    SetLimit.within("temperature_c", c.temperatureC(), SetLimit.hard(0), SetLimit.hard(50), " °C");
    Calibrations.PhPoint point = new Calibrations.PhPoint(c.bufferPh(), mv, c.temperatureC());
    PhCalibration found =
        paired(before, point)
            ? PhCalibration.of(point(before.points().get(0)), point(point))
            : onePoint(before.of(Role.PH_MV, file).slopeFraction(), point);
    Calibrations.Values values =
        new Calibrations.Values(found.offsetMv(), found.slopeFraction(), at(now));
    plausible(Role.PH_MV, values);
    return s.withAsked(s.asked().with(before.with(Role.PH_MV, values, file, List.of(point))));
  }

  static ScanState orp(ScanSettings settings, ScanState s, Command.CalibrateOrp c, Now now)
      throws Refusal {
    Calibrations before = s.asked().calibrations();
    double mv = settled(s, Role.ORP_MV);
    SetLimit.within("orp_mv", c.standardMv(), SetLimit.hard(0), SetLimit.hard(1000), " mV");
    Calibrations.Values values = new Calibrations.Values(c.standardMv() - mv, 1, at(now));
    plausible(Role.ORP_MV, values);
    return s.withAsked(
        s.asked().with(before.with(Role.ORP_MV, values, settings.measure(), before.points())));
  }

  static ScanState undo(ScanState s, Role probe) throws Refusal {
    if (!s.safety().watched().checking()) {
      throw new Refusal("calibrate_undo needs a function check; begin one with function_check");
    }
    if (!s.asked().calibrations().made().containsKey(probe)) {
      throw new Refusal("no calibration by command stands; the file's values count already");
    }
    return s.withAsked(s.asked().with(s.asked().calibrations().without(probe)));
  }

  /** What the sender should know about the result. */
  static String remark(ScanSettings settings, ScanState before, ScanState after, Role probe) {
    Calibrations.Values was = before.asked().calibrations().of(probe, settings.measure());
    Calibrations.Values is = after.asked().calibrations().of(probe, settings.measure());
    boolean one =
        probe == Role.PH_MV
            && after.asked().calibrations().made().containsKey(probe)
            && is.slopeFraction() == was.slopeFraction();
    return text(probe, is)
        + "; before: "
        + text(probe, was)
        + (one ? "; another buffer in this function check gives the slope too" : "");
  }

  private static String text(Role probe, Calibrations.Values v) {
    return probe == Role.PH_MV
        ? String.format(
            Locale.ROOT,
            "offset %.1f mV, slope %.1f %% of Nernst's",
            v.offsetMv(),
            100 * v.slopeFraction())
        : String.format(Locale.ROOT, "offset %.1f mV", v.offsetMv());
  }

  private static double settled(ScanState s, Role role) throws Refusal {
    if (!s.safety().watched().checking()) {
      throw new Refusal("calibrate needs a function check; begin one with function_check");
    }
    Still still = s.asked().calibrations().still().get(role);
    if (still == null) {
      throw new Refusal(role.key() + " has no signal to calibrate by");
    }
    if (still.forS() < STILL_S) {
      throw new Refusal(
          String.format(
              Locale.ROOT,
              "%s has stood within %.0f mV for %.0f s only, and %.0f s are wanted; wait and send it"
                  + " again with another request_id",
              role.key(),
              BANDS_MV.get(role),
              still.forS(),
              STILL_S));
    }
    return still.meanMv();
  }

  private static boolean paired(Calibrations before, Calibrations.PhPoint point) {
    return !before.points().isEmpty()
        && Math.abs(before.points().get(0).ph() - point.ph()) >= PhCalibration.LEAST_PH_APART;
  }

  /** From E = E0 + s S(t) (7 - pH), with the slope unchanged. */
  private static PhCalibration onePoint(double slopeFraction, Calibrations.PhPoint p) {
    double slopeMv = slopeFraction * Nernst.slopeMvPerPh(p.temperatureC());
    return new PhCalibration(p.mv() - slopeMv * (7 - p.ph()), slopeFraction);
  }

  private static PhCalibration.Point point(Calibrations.PhPoint p) {
    return new PhCalibration.Point(p.ph(), p.mv(), p.temperatureC());
  }

  private static double at(Now now) {
    return now.clockTrusted() ? now.unixTimeS() : 0;
  }

  private static void plausible(Role probe, Calibrations.Values v) throws Refusal {
    if (believable(probe, v)) {
      return;
    }
    throw new Refusal(
        String.format(
            Locale.ROOT,
            "%s is not believable: within %.0f mV%s is; nothing is changed. Look that the probe is"
                + " in what was said, clean it, begin with a buffer near pH 7, or replace the probe",
            text(probe, v),
            mostMv(probe),
            probe == Role.PH_MV
                ? String.format(
                    Locale.ROOT,
                    " and %.0f to %.0f %%",
                    100 * ProbeHealth.SLOPE_MIN,
                    100 * ProbeHealth.SLOPE_MAX)
                : ""));
  }

  /** Ensures that a corrupt state cannot widen what a command may set. */
  static void checkPlausible(Role probe, Calibrations.Values v) {
    if (!BANDS_MV.containsKey(probe) || !believable(probe, v)) {
      throw new IllegalArgumentException("a calibration of " + probe + " by " + v);
    }
  }

  private static boolean believable(Role probe, Calibrations.Values v) {
    return Math.abs(v.offsetMv()) <= mostMv(probe)
        && (probe == Role.PH_MV
            ? v.slopeFraction() >= ProbeHealth.SLOPE_MIN
                && v.slopeFraction() <= ProbeHealth.SLOPE_MAX
            : v.slopeFraction() == 1)
        && v.atUnixS() >= 0;
  }

  private static double mostMv(Role probe) {
    return probe == Role.PH_MV ? ProbeHealth.PH_OFFSET_MAX_MV : ProbeHealth.ORP_OFFSET_MAX_MV;
  }
}
