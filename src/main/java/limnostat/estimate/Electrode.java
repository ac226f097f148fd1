package limnostat.estimate;

import java.util.ArrayList;
import java.util.List;

/**
 * A hypothesis about the ORP electrode: its slope per decade of HOCl, and how far it can be
 * trusted. Nobody enters either, so the filter weighs several values of each against each other.
 *
 * @param slopeMv slope, mV per decade of HOCl
 * @param trust how far it can be trusted
 */
public record Electrode(double slopeMv, Trust trust) {
  /**
   * Slope of a nominal electrode, mV per decade (30–90 is plausible: common practice, no source).
   */
  static final double SLOPE_MV = 47;

  /** Standard deviation of ln slope before any measurement (engineering judgement). */
  private static final double SLOPE_SD = 0.5;

  private static final double[] SLOPES_MV = {15, 26, 42, 68};

  /** Data read back from a ledger is checked like untrusted input. */
  public Electrode {
    if (!(slopeMv > 0 && slopeMv < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException("no electrode: slope " + slopeMv + " mV");
    }
  }

  /**
   * How far an electrode can be trusted. Its errors are slow: today's error is still there
   * tomorrow. All figures are engineering judgement from published results. Two identical
   * electrodes that agreed in a standard differed by up to 218 mV in water (James, Copeland and
   * Lytle, checked). Ten new ones agreed to 2 mV after 16 h in one water (Steininger and Pareja,
   * checked).
   */
  public enum Trust {
    /** A new electrode in clean water. */
    SOUND(7, 3, 0.7, 0.8),
    /** An electrode that drifts with film and flow. */
    ORDINARY(10, 12, 2, 1),
    /** An electrode that drifts as far as a day's use of chlorine would move it. */
    POOR(15, 30, 5, 0.8),
    /** An electrode that says nothing about the water: only doses, tests and the calendar count. */
    MUTE(30, 60, 20, 0.3);

    /** Scatter of a half-hour mean, mV. */
    final double scatterMv;

    /** Deviation of an error that fades within days, mV. */
    final double wanderMv;

    /** Random walk of its level, mV per square root of a day. */
    final double creepMv;

    /** Weight before any measurement. */
    final double prior;

    Trust(double scatterMv, double wanderMv, double creepMv, double prior) {
      this.scatterMv = scatterMv;
      this.wanderMv = wanderMv;
      this.creepMv = creepMv;
      this.prior = prior;
    }
  }

  /** Whether it says nothing about the water. */
  boolean mute() {
    return trust == Trust.MUTE;
  }

  /** All hypotheses that are weighed against each other. One of them is mute. */
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

  /** ln of its weight before any measurement, up to a constant. */
  double lnPrior() {
    double z = mute() ? 0 : StrictMath.log(slopeMv / SLOPE_MV) / SLOPE_SD;
    return StrictMath.log(trust.prior) - z * z / 2;
  }
}
