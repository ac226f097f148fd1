package limnostat.control;

import java.util.Arrays;
import java.util.function.DoubleFunction;
import limnostat.estimate.Estimate;
import limnostat.estimate.Hour;
import limnostat.estimate.Outlook;

/**
 * The duty for the coming day.
 *
 * @param duty what the law demands, 0–1
 * @param balanceDuty the same by doses and tests alone, ignoring ORP, 0–1
 * @param lowestUnixS when free chlorine will be lowest in the bathing hours, Unix s; 0: no hour
 *     stands out
 * @param forS age of the plan, s; infinite: there is none yet
 */
public record Plan(double duty, double balanceDuty, double lowestUnixS, double forS) {
  public static final Plan NONE = new Plan(0, 0, 0, Double.POSITIVE_INFINITY);

  /** Interval between plans, s. */
  private static final double STANDS_S = 1200;

  private static final int HOURS = 24;

  /**
   * Probability of being below the target that the plan aims at: see {@link #duty} (engineering
   * judgement).
   */
  private static final double BELOW_TARGET = 0.45;

  /**
   * Above this probability that chlorine is gone, the plan does not wait (engineering judgement).
   */
  private static final double GONE = 0.8;

  /**
   * Doses and tests call for at most this many times the mean use in the pump's hours: the sun at
   * noon, and some water to raise (engineering judgement).
   */
  private static final double MOST_OF_USED = 1.5;

  /**
   * Inputs of a plan.
   *
   * @param targetMgL target for free chlorine in the bathing hours, mg/L
   * @param riseMgLH rise at full duty by the output's label, mg/L per hour
   * @param hourAt sun and bathers at a time in Unix s
   */
  record Inputs(
      ControlSettings settings,
      double targetMgL,
      double riseMgLH,
      DoubleFunction<Hour> hourAt,
      double unixTimeS) {}

  boolean due(double elapsedS) {
    return forS + elapsedS >= STANDS_S;
  }

  Plan aged(double elapsedS) {
    return new Plan(duty, balanceDuty, lowestUnixS, forS + elapsedS);
  }

  /** The same plan, due to be replaced. */
  Plan expired() {
    return new Plan(duty, balanceDuty, lowestUnixS, Double.POSITIVE_INFINITY);
  }

  /**
   * Plans the duty by which free chlorine in the bathing hours of the coming day is about as likely
   * to be below the target as above it. Its distribution is carried through the day as levels of
   * equal probability. A well-known level is held at the target on average over the bathing hours.
   * A poorly known one is decided by its probabilities, not by a threshold in a control law.
   */
  static Plan of(Inputs in, Estimate estimate) {
    Day day = Day.of(in);
    double now = estimate.freeChlorineMgL();
    double[] levels =
        estimate.residual().levels().stream().mapToDouble(share -> share * now).toArray();
    double planned = day.duty(estimate.outlook(), levels, BELOW_TARGET);
    double duty = Math.max(planned, leastDuty(in, estimate, levels[levels.length - 1]));
    return new Plan(
        duty,
        balanceDuty(in, day, estimate.balance()),
        day.lowestUnixS(in.unixTimeS, estimate.outlook(), now),
        0);
  }

  /**
   * The duty by doses and tests alone. Long after the last test they cannot tell whether anything
   * is left, so they call for little more than the use that they account for.
   */
  private static double balanceDuty(Inputs in, Day day, Outlook balance) {
    double planned = day.duty(balance, new double[] {balance.freeChlorineMgL()}, 0.5);
    double usedMgLDay = balance.ratePerDay(in.targetMgL, Hour.MEAN, 1) * in.targetMgL;
    double usedDuty = usedMgLDay / (in.riseMgLH * in.settings.pumpS() / 3600);
    return Math.min(planned, MOST_OF_USED * usedDuty);
  }

  /**
   * Low free chlorine is always uncertain as a share, so this uncertainty is no reason to wait.
   * Where free chlorine is very likely below the sanitising minimum, the plan does not wait for the
   * bathing hours: the output runs at full duty. Where even the highest level is below the target,
   * no hour gets less than the day's demand spread over 24 hours.
   */
  private static double leastDuty(Inputs in, Estimate estimate, double highestMgL) {
    if (estimate.residual().gone() > GONE) {
      return 1;
    }
    return highestMgL < in.targetMgL
        ? Math.min(1, estimate.demandMgLDay() / (24 * in.riseMgLH))
        : 0;
  }

  /**
   * The coming day, hour by hour.
   *
   * @param opens share of each hour in which the pump runs, 0–1
   * @param counts hours in which people bathe; all hours if there are none
   */
  @SuppressWarnings("ArrayRecordComponent") // never compared
  private record Day(
      double targetMgL, double riseMgLH, Hour[] hours, double[] opens, boolean[] counts) {
    /** Within this share of the target, an hour counts partly as below and partly as above. */
    private static final double NEAR = 0.5;

    /** Bisection steps in the search for the duty. */
    private static final int HALVINGS = 10;

    /**
     * An hour stands out if it is below the day's highest by this share (engineering judgement).
     */
    private static final double STANDS_OUT = 0.1;

    /** Duties this close to 0 or 1 become 0 or 1. */
    private static final double LEAST = 0.004;

    /**
     * Each hour is split into this many parts, as pump windows can begin and end within an hour.
     */
    private static final int PARTS = 6;

    static Day of(Inputs in) {
      Hour[] hours = new Hour[HOURS];
      double[] opens = new double[HOURS];
      boolean[] counts = new boolean[HOURS];
      boolean any = false;
      for (int hour = 0; hour < HOURS; hour++) {
        double at = in.unixTimeS + 3600 * (hour + 0.5);
        hours[hour] = in.hourAt.apply(at);
        for (int part = 0; part < PARTS; part++) {
          double partAt = in.unixTimeS + 3600 * (hour + (part + 0.5) / PARTS);
          opens[hour] += in.settings.pumpWanted(partAt) ? 1.0 / PARTS : 0;
        }
        counts[hour] = in.settings.bathing(at);
        any |= counts[hour];
      }
      if (!any) {
        Arrays.fill(counts, true);
      }
      return new Day(in.targetMgL, in.riseMgLH, hours, opens, counts);
    }

    double duty(Outlook outlook, double[] levels, double odds) {
      Outlook.Course course = outlook.course(hours);
      double[] takes = new double[HOURS];
      for (int hour = 0; hour < HOURS; hour++) {
        takes[hour] = course.takesMgLH(targetMgL, hour) / riseMgLH;
      }
      double low = -1;
      double high = 1;
      for (int i = 0; i < HALVINGS; i++) {
        double more = (low + high) / 2;
        if (below(course, levels, takes, more) > odds) {
          low = more;
        } else {
          high = more;
        }
      }
      double duty = clip(takes[0] + (low + high) / 2);
      return duty < LEAST ? 0 : duty > 1 - LEAST ? 1 : duty;
    }

    /** When least is left in the bathing hours if each hour is fed what it uses; 0: all alike. */
    double lowestUnixS(double unixTimeS, Outlook outlook, double nowMgL) {
      Outlook.Course course = outlook.course(hours);
      double f = nowMgL;
      double lowest = Double.POSITIVE_INFINITY;
      double highest = 0;
      int at = 0;
      for (int hour = 0; hour < HOURS; hour++) {
        double duty = opens[hour] * clip(course.takesMgLH(targetMgL, hour) / riseMgLH);
        f = course.after(f, duty * riseMgLH, hour);
        if (counts[hour]) {
          highest = Math.max(highest, f);
          if (f < lowest) {
            lowest = f;
            at = hour;
          }
        }
      }
      return lowest < (1 - STANDS_OUT) * highest ? unixTimeS + 3600.0 * (at + 1) : 0;
    }

    private static double clip(double duty) {
      return Math.max(0, Math.min(1, duty));
    }

    /** Share of levels and bathing hours below the target. Those near it count in part. */
    private double below(Outlook.Course course, double[] levels, double[] takes, double more) {
      double sum = 0;
      int count = 0;
      for (double level : levels) {
        double f = level;
        for (int hour = 0; hour < HOURS; hour++) {
          double before = f;
          double duty = opens[hour] * clip(takes[hour] + more);
          f = course.after(f, duty * riseMgLH, hour);
          if (counts[hour]) {
            double off = ((before + f) / 2 / targetMgL - 1) / NEAR;
            sum += (1 - Math.max(-1, Math.min(1, off))) / 2;
            count++;
          }
        }
      }
      return sum / count;
    }
  }
}
