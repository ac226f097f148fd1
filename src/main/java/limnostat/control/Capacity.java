package limnostat.control;

import java.util.function.DoubleFunction;
import limnostat.estimate.Estimate;
import limnostat.estimate.Hour;
import limnostat.estimate.Outlook;

/**
 * Whether the output can hold the target: what the pool uses at it in the coming day, by the
 * outlook, against what the output brings in the pump's hours and under the caps.
 *
 * @param neededGDay use at the target, g a day; 0: not worked out yet
 * @param bringsGDay what the output brings at the most, with the believed gain, g a day; 0: not
 *     worked out yet
 * @param lacking whether it is clearly too little
 * @param lasting for how long it has been
 */
public record Capacity(double neededGDay, double bringsGDay, boolean lacking, LeakyTimer lasting) {
  public static final Capacity UNKNOWN = new Capacity(0, 0, false, LeakyTimer.NOT);

  /**
   * Use above what the output brings by this share, and by its own deviation, is clearly too much:
   * free chlorine then stays about a tenth below the target, the least that a kit can tell. It is
   * over once the output brings enough (engineering judgement). How sure free chlorine itself is
   * does not count: where too little is fed it is low, and unsure for that.
   */
  private static final double CLEARLY = 1.1;

  private static final int HOURS = 24;

  /**
   * What the capacity is worked out from.
   *
   * @param hourAt what a time brings, by Unix s
   */
  record Inputs(
      ControlSettings settings,
      Feed feed,
      double volumeM3,
      double targetMgL,
      DoubleFunction<Hour> hourAt,
      double unixTimeS) {}

  /** The same, as the estimate has it now. */
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

  /** Whether it has lacked for so long that a person should know. */
  public boolean tooSmall() {
    return lacking && lasting.enough();
  }

  public boolean known() {
    return neededGDay > 0;
  }
}
