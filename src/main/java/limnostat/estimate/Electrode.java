package limnostat.estimate;

import java.util.ArrayList;
import java.util.List;

/**
 * What the ORP electrode may be: how much it shows for a decade of HOCl, and how far it may be
 * believed. Nobody enters either, so the filter weighs a handful of each against the others.
 *
 * @param slopeMv slope, mV a decade of HOCl
 * @param trust how far it may be believed
 */
public record Electrode(double slopeMv, Trust trust) {
  /** The slope that a nominal electrode has, mV a decade (30–90 is plausible [practice]). */
  static final double SLOPE_MV = 47;

  /** Standard deviation of ln slope before anything was measured (engineering judgement). */
  private static final double SLOPE_SD = 0.5;

  private static final double[] SLOPES_MV = {15, 26, 42, 68};

  /** What is read back from a ledger is checked as a stranger's would be. */
  public Electrode {
    if (!(slopeMv > 0 && slopeMv < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException("no electrode: slope " + slopeMv + " mV");
    }
  }

  /**
   * How far an electrode may be believed. Its errors are slow: what it is off by now it is off by
   * tomorrow. All figures are engineering judgement on what is published: two alike electrodes that
   * agreed in a standard differed by up to 218 mV in water (James, Copeland and Lytle, checked),
   * ten new ones agreed to 2 mV after 16 h in one water (Steininger and Pareja, checked).
   */
  public enum Trust {
    /** A new electrode in clean water. */
    SOUND(7, 3, 0.7, 0.8),
    /** One that wanders with film and flow. */
    ORDINARY(10, 12, 2, 1),
    /** One that wanders as far as a day's use would move it. */
    POOR(15, 30, 5, 0.8),
    /** One that says nothing of the water: doses, tests and the calendar have to do. */
    MUTE(30, 60, 20, 0.3);

    /** Scatter of a mean of half an hour, mV. */
    final double scatterMv;

    /** Deviation of an error that fades within days, mV. */
    final double wanderMv;

    /** How fast its level creeps, mV a root day. */
    final double creepMv;

    /** Weight before anything was measured. */
    final double prior;

    Trust(double scatterMv, double wanderMv, double creepMv, double prior) {
      this.scatterMv = scatterMv;
      this.wanderMv = wanderMv;
      this.creepMv = creepMv;
      this.prior = prior;
    }
  }

  /** Whether it says nothing of the water. */
  boolean mute() {
    return trust == Trust.MUTE;
  }

  /** All that are weighed against each other; one of them is mute. */
  static List<Electrode> all() {
    List<Electrode> all = new ArrayList<>();
    for (Trust trust : Trust.values()) {
      if (trust == Trust.MUTE) {
        all.add(new Electrode(SLOPE_MV, trust));
        continue;
      }
      for (double slopeMv : SLOPES_MV) {
        all.add(new Electrode(slopeMv, trust));
      }
    }
    return all;
  }

  /** ln of the weight that it has before anything was measured, but for a constant. */
  double lnPrior() {
    double z = mute() ? 0 : StrictMath.log(slopeMv / SLOPE_MV) / SLOPE_SD;
    return StrictMath.log(trust.prior) - z * z / 2;
  }
}
