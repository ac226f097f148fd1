package limnostat.control;

import java.util.function.DoubleFunction;
import limnostat.estimate.Hour;
import limnostat.estimate.Outlook;

/**
 * Chooses a duty for now, as the first step of the two days to come in which free chlorine, as the
 * outlook has it, is least likely to leave the band about the target. Chlorine so goes in when it
 * does most good: soon where the night has left little, and late in the pump's hours what the next
 * night will take.
 *
 * <p>Dynamic programming backwards in time over a grid of free chlorine (Bellman's equation, from
 * memory): {@code V(k, F) = c(F) + min over u of V(k + 1, F after the step with duty u)}.
 */
final class Plan {
  private static final int STEPS = 48;
  private static final double STEP_H = 1;

  /** The pump's hours may begin and end within a step: looked at so often in it. */
  private static final int LOOKS = 4;

  /** Duties that a later step chooses from are multiples of a share, those of the first finer. */
  private static final int LATER_DUTIES = 4;

  private static final int FIRST_DUTIES = 20;

  /** Points of the grid, which ends at this many times the target. */
  private static final int POINTS = 41;

  private static final double GRID_TARGETS = 2.5;

  /** The band: this share of the target to either side, though no more than so much, mg/L. */
  private static final double BAND_SHARE = 0.3;

  private static final double BAND_MG_L = 1;

  /** Scatter of free chlorine about the outlook, as a share (engineering judgement). */
  private static final double OUTLOOK_SD = 0.1;

  /** Most that the spread is taken for: a plan by less is none (engineering judgement). */
  private static final double SD_MAX = 0.6;

  /** Too little lets germs live: it weighs more than too much (engineering judgement). */
  private static final double BELOW_WEIGHS = 1.5;

  /** Cost of being off the target, by the square of it as a share of it (judgement). */
  private static final double OFF_WEIGHS = 0.3;

  private Plan() {}

  /**
   * @param sdFraction standard deviation of free chlorine now, as a share of it
   * @param riseMgLH what the output is told to bring at full duty, mg/L an hour
   * @param hourAt what a time brings, by Unix s
   * @param unixTimeS now
   * @return 0–1
   */
  static double duty(
      ControlSettings settings,
      Outlook outlook,
      double sdFraction,
      double targetMgL,
      double riseMgLH,
      DoubleFunction<Hour> hourAt,
      double unixTimeS) {
    double gridMgL = GRID_TARGETS * targetMgL / (POINTS - 1);
    double[] cost = cost(targetMgL, gridMgL, sdFraction);
    double[] next = cost.clone();
    for (int step = STEPS - 1; step > 0; step--) {
      double startUnixS = unixTimeS + 3600 * STEP_H * step;
      double riseMgL = riseMgLH * STEP_H * openShare(settings, startUnixS);
      Hour hour = hourAt.apply(startUnixS + 1800 * STEP_H);
      double inDays = step * STEP_H / 24;
      double[] value = new double[POINTS];
      for (int i = 0; i < POINTS; i++) {
        double f = i * gridMgL;
        double unfed = outlook.after(f, 0, hour, STEP_H / 24, inDays);
        double best = at(next, unfed / gridMgL);
        if (riseMgL > 0) {
          double fed = outlook.after(f, riseMgL, hour, STEP_H / 24, inDays);
          for (int u = 1; u <= LATER_DUTIES; u++) {
            double share = u / (double) LATER_DUTIES;
            best = Math.min(best, at(next, (unfed + share * (fed - unfed)) / gridMgL));
          }
        }
        value[i] = cost[i] + best;
      }
      next = value;
    }
    Hour now = hourAt.apply(unixTimeS + 1800 * STEP_H);
    double riseMgL = riseMgLH * STEP_H * openShare(settings, unixTimeS);
    double duty = 0;
    double least = Double.POSITIVE_INFINITY;
    for (int u = 0; u <= FIRST_DUTIES; u++) {
      double share = u / (double) FIRST_DUTIES;
      double f = outlook.after(outlook.freeChlorineMgL(), share * riseMgL, now, STEP_H / 24, 0);
      double value = at(next, f / gridMgL);
      if (value < least) {
        least = value;
        duty = share;
      }
    }
    return duty;
  }

  /** Share of a step in which the pump is asked to run. */
  private static double openShare(ControlSettings settings, double startUnixS) {
    int open = 0;
    for (int look = 0; look < LOOKS; look++) {
      open += settings.pumpWanted(startUnixS + 3600 * STEP_H * (look + 0.5) / LOOKS) ? 1 : 0;
    }
    return open / (double) LOOKS;
  }

  /**
   * What it costs to be at each point of the grid for a step: how likely free chlorine is outside
   * the band when it is believed there, and a pull towards the target, or far outside all were one.
   */
  private static double[] cost(double targetMgL, double gridMgL, double sdFraction) {
    double half = Math.min(BAND_MG_L, BAND_SHARE * targetMgL);
    double sd =
        Math.min(SD_MAX, StrictMath.sqrt(sdFraction * sdFraction + OUTLOOK_SD * OUTLOOK_SD));
    double[] cost = new double[POINTS];
    for (int i = 0; i < POINTS; i++) {
      double f = i * gridMgL;
      double ln = StrictMath.log(Math.max(gridMgL / 10, f));
      double below = normal((StrictMath.log(targetMgL - half) - ln) / sd);
      double above = normal((ln - StrictMath.log(targetMgL + half)) / sd);
      double off = f / targetMgL - 1;
      cost[i] = BELOW_WEIGHS * below + above + OFF_WEIGHS * off * off;
    }
    return cost;
  }

  /** The normal distribution to within 0.01, by the logistic one of the same shape. */
  private static double normal(double z) {
    return 1 / (1 + StrictMath.exp(-1.702 * z));
  }

  /** Between the grid's points; the last stands for all beyond. */
  private static double at(double[] values, double point) {
    int i = (int) point;
    return i >= POINTS - 1
        ? values[POINTS - 1]
        : values[i] + (point - i) * (values[i + 1] - values[i]);
  }
}
