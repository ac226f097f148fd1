package limnostat.safety;

/**
 * The chlorine fed while nothing trustworthy measured it (S4). The budget is a dose, not a time,
 * because the dose is what can do harm. A test of free chlorine confirms the water at once; a
 * consistent ORP does so over a day.
 *
 * @param blind whether nothing trustworthy measured chlorine at the last assessment
 * @param fedMgL chlorine fed since the water was last confirmed, mg/L of the pool; infinite: it
 *     never was
 */
public record BlindFeed(boolean blind, double fedMgL) {
  /** Nothing may be fed until the water has been confirmed once. */
  public static final BlindFeed UNCONFIRMED = new BlindFeed(false, Double.POSITIVE_INFINITY);

  /** Time in which a good ORP restores the whole budget, s (engineering judgement). */
  private static final double CONFIRMED_S = 86_400;

  /** Used share of the budget at which the ration ends: the rest is not worth switching for. */
  private static final double SPENT = 0.95;

  private static final double LOW = 0.5;

  /** Data read back from a ledger is validated like any untrusted input. */
  public BlindFeed {
    if (!(fedMgL >= 0)) {
      throw new IllegalArgumentException("fed blind: " + fedMgL + " mg/L");
    }
  }

  /** What the probes show of the water on one scan. */
  enum Sight {
    /** ORP, pH and temperature are good, and ORP is consistent with the estimate. */
    WELL,
    /** No information: standing water at the probes, or a value held over a short dropout. */
    NOTHING,
    /** Chlorine is limited because they are missing. */
    LIMITED
  }

  /**
   * @param tested whether a manual test of free chlorine has just been entered
   * @param fedNowMgL chlorine fed since the last scan, mg/L of the pool
   * @param unprovenMgL what may have been fed before a crash, mg/L; whether it was fed blind is
   *     unknown
   * @param seenS observed time since the last scan, s
   */
  BlindFeed step(
      double budgetMgL,
      Sight sight,
      boolean tested,
      double fedNowMgL,
      double unprovenMgL,
      double seenS) {
    // Without information the state does not change: a night without flow confirms nothing.
    boolean now = sight == Sight.LIMITED || (sight == Sight.NOTHING && blind);
    // The dose since the last scan counts as blind if feeding was blind then or is blind now.
    double fed = fedMgL + unprovenMgL + (blind || now ? fedNowMgL : 0);
    if (tested) {
      return new BlindFeed(now, 0);
    }
    if (sight != Sight.WELL) {
      return new BlindFeed(now, fed);
    }
    boolean never = fed == Double.POSITIVE_INFINITY;
    double back = budgetMgL * seenS / CONFIRMED_S;
    return new BlindFeed(false, never ? 0 : Math.max(0, Math.min(budgetMgL, fed) - back));
  }

  /** What is left of the budget, mg/L of the pool. */
  public double leftMgL(double budgetMgL) {
    return Math.max(0, budgetMgL - fedMgL);
  }

  /** What is left of the budget when the ration ends, mg/L of the pool. */
  public static double endMgL(double budgetMgL) {
    return (1 - SPENT) * budgetMgL;
  }

  boolean low(double budgetMgL) {
    return blind && fedMgL >= LOW * budgetMgL;
  }

  boolean spent(double budgetMgL) {
    return blind && fedMgL >= SPENT * budgetMgL;
  }
}
