package limnostat.control;

import java.util.function.DoubleFunction;
import limnostat.estimate.Estimate;
import limnostat.estimate.Hour;
import limnostat.estimate.Outlook;

/**
 * Whether the output can hold the target. It compares the pool's use at the target in the coming
 * day, by the outlook, with what the output can feed in the pump's hours and under the caps.
 *
 * @param neededGDay use at the target, g per day; 0: not yet known
 * @param bringsGDay the most that the output can feed, with the estimated gain, g per day; 0: not
 *     yet known
 * @param lacking whether the output is clearly too small
 * @param lasting for how long it has been too small
 */
public record Capacity(double neededGDay, double bringsGDay, boolean lacking, LeakyTimer lasting) {
  public static final Capacity UNKNOWN = new Capacity(0, 0, false, LeakyTimer.NOT);

  /**
   * The output is clearly too small if the use exceeds what it feeds by this factor and by the
   * use's own deviation. Free chlorine then stays about a tenth below the target, the least that a
   * kit can show. The condition clears once the output feeds enough (engineering judgement). The
   * uncertainty of free chlorine itself does not count: where too little is fed, free chlorine is
   * low and uncertain for that very reason.
   */
  private static final double CLEARLY = 1.1;

  private static final int HOURS = 24;

  /**
   * What the capacity is calculated from.
   *
   * @param hourAt sun and bathers at a time in Unix s
   */
  record Inputs(
      ControlSettings settings,
      Feed feed,
      double volumeM3,
      double targetMgL,
      DoubleFunction<Hour> hourAt,
      double unixTimeS) {}

  /** The capacity by the present estimate. */
  Capacity by(Estimate estimate, Inputs in) {
    Outlook outlook = estimate.outlook();
    double lossMgL = 0;
    for (int hour = 0; hour < HOURS; hour++) {
      Hour brought = in.hourAt.apply(in.unixTimeS + 3600 * (hour + 0.5));
      double inDays = hour / (double) HOURS;
      lossMgL += outlook.ratePerDay(in.targetMgL, brought, inDays) * in.targetMgL / HOURS;
    }
    double needed = lossMgL * in.volumeM3;
    double brings = outlook.gain() * in.feed.dayG(in.settings.pumpS() / 3600);
    double sd = needed * estimate.demandSdMgLDay() / estimate.demandMgLDay();
    boolean tooMuch = lacking ? needed > brings : needed > CLEARLY * brings && needed - sd > brings;
    return new Capacity(needed, brings, tooMuch, lasting);
  }

  Capacity step(double elapsedS) {
    return new Capacity(neededGDay, bringsGDay, lacking, lasting.step(lacking, elapsedS));
  }

  /** Whether the output has been too small for long enough to report it. */
  public boolean tooSmall() {
    return lacking && lasting.enough();
  }

  public boolean known() {
    return neededGDay > 0;
  }
}
