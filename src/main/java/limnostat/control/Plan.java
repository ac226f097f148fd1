package limnostat.control;

import java.util.function.DoubleFunction;
import limnostat.estimate.Hour;
import limnostat.estimate.Outlook;

/**
 * Chooses a duty for the coming day: of all constant duties in the pump's hours the one by which
 * free chlorine, as the outlook has it, is at the target on the mean of the next 24 hours.
 */
final class Plan {
  private static final int HOURS = 24;

  private Plan() {}

  /**
   * @param riseMgLH what the output is told to bring at full duty, mg/L an hour
   * @param hourAt what a time brings, by Unix s
   * @param unixTimeS now
   */
  static double duty(
      ControlSettings settings,
      Outlook outlook,
      double targetMgL,
      double riseMgLH,
      DoubleFunction<Hour> hourAt,
      double unixTimeS) {
    Hour[] hours = new Hour[HOURS];
    boolean[] open = new boolean[HOURS];
    for (int hour = 0; hour < HOURS; hour++) {
      double at = unixTimeS + 3600 * (hour + 0.5);
      hours[hour] = hourAt.apply(at);
      open[hour] = settings.pumpWanted(at);
    }
    double low = 0;
    double high = 1;
    for (int i = 0; i < 10; i++) {
      double duty = (low + high) / 2;
      if (meanMgL(outlook, duty * riseMgLH, hours, open) < targetMgL) {
        low = duty;
      } else {
        high = duty;
      }
    }
    return high < 0.002 ? 0 : low > 0.998 ? 1 : (low + high) / 2;
  }

  private static double meanMgL(Outlook outlook, double rise, Hour[] hours, boolean[] open) {
    double f = outlook.freeChlorineMgL();
    double sum = 0;
    for (int hour = 0; hour < HOURS; hour++) {
      double before = f;
      f = outlook.after(f, open[hour] ? rise : 0, hours[hour], 1.0 / HOURS, hour / 24.0);
      sum += (before + f) / 2;
    }
    return sum / HOURS;
  }
}
