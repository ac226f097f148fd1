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
 * @param balanceDuty what it would be by doses and tests alone, as if ORP said nothing, 0–1
 * @param lowestUnixS when in the bathing hours free chlorine will be at its lowest, Unix s; 0: no
 *     hour stands out
 * @param forS for how long it has stood, s; infinite: there is none yet
 */
public record Plan(double duty, double balanceDuty, double lowestUnixS, double forS) {
  public static final Plan NONE = new Plan(0, 0, 0, Double.POSITIVE_INFINITY);

  /** It is made anew this often, s. */
  private static final double STANDS_S = 1200;

  private static final int HOURS = 24;

  /** Odds of a level that the plan keeps to: see {@link #duty} (engineering judgement). */
  private static final double BELOW_TARGET = 0.45;

  /** Nobody waits where chlorine is gone with this probability (engineering judgement). */
  private static final double GONE = 0.8;

  /**
   * So many times the mean use of the pump's hours is what doses and tests call for at the most:
   * the sun at noon, and some water to be raised (engineering judgement).
   */
  private static final double MOST_OF_USED = 1.5;

  /**
   * What a plan is made from.
   *
   * @param targetMgL free chlorine that the bathing hours should have, mg/L
   * @param riseMgLH what the output brings at full duty by its label, mg/L an hour
   * @param hourAt what a time brings, by Unix s
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

  /** One that is to be made anew. */
  Plan expired() {
    return new Plan(duty, balanceDuty, lowestUnixS, Double.POSITIVE_INFINITY);
  }

  /**
   * Of all constant duties in the pump's hours the one by which free chlorine in the bathing hours
   * of the coming day is about as likely to be below the target as above it: its distribution is
   * carried through the day by levels of equal odds. What is known well is so held at the target on
   * the middle of the bathing hours; where nothing is known well the odds decide, not the threshold
   * of a law.
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
   * By doses and tests alone. Long after the last test they cannot tell whether anything is left,
   * so they call for little more than what the water uses by them.
   */
  private static double balanceDuty(Inputs in, Day day, Outlook balance) {
    double planned = day.duty(balance, new double[] {balance.freeChlorineMgL()}, 0.5);
    double usedMgLDay = balance.ratePerDay(in.targetMgL, Hour.MEAN, 1) * in.targetMgL;
    double usedDuty = usedMgLDay / (in.riseMgLH * in.settings.pumpS() / 3600);
    return Math.min(planned, MOST_OF_USED * usedDuty);
  }

  /**
   * Unsure because it is low is not unsure. Where free chlorine is very likely below the sanitising
   * minimum nobody waits for the bathing hours: the output gives all that it has. Where even the
   * highest level is below the target no hour gets less than the demand of the day spread over all
   * of it.
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
   * @param counts hours in which people bathe; all where none are
   */
  @SuppressWarnings("ArrayRecordComponent") // never compared
  private record Day(
      double targetMgL, double riseMgLH, Hour[] hours, double[] opens, boolean[] counts) {
    /** Within this share of the target an hour counts in part as below and in part as above. */
    private static final double NEAR = 0.5;

    /** A duty is found to one in so many halvings. */
    private static final int HALVINGS = 10;

    /** By this share below the highest of the day an hour stands out (engineering judgement). */
    private static final double STANDS_OUT = 0.1;

    /** Duties within this of either end are that end. */
    private static final double LEAST = 0.004;

    /** The pump's windows begin and end within hours. */
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

    /** When in the bathing hours least is left if each hour gets what it takes; 0: all alike. */
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

    /** Share of levels and bathing hours below the target; one that is near counts in part. */
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
