package limnostat.safety;

/**
 * What was fed while nothing trustworthy measured chlorine (S4): a dose, not a time, as the dose is
 * what can harm. A test of free chlorine confirms the water at once; a day of a consistent ORP
 * does.
 *
 * @param blind whether nothing trustworthy measured chlorine when last looked at
 * @param fedMgL fed since the water was confirmed, mg/L of the pool; infinite: it never was
 */
public record BlindFeed(boolean blind, double fedMgL) {
  /** Until the water has been seen once nothing may be fed. */
  public static final BlindFeed UNCONFIRMED = new BlindFeed(false, Double.POSITIVE_INFINITY);

  /** A good ORP gives back the whole budget in so long, s (engineering judgement). */
  private static final double CONFIRMED_S = 86_400;

  /** Below this share of the budget the ration is over: what is left is not worth a switching. */
  private static final double SPENT = 0.95;

  private static final double LOW = 0.5;

  /** What is read back from a ledger is checked as a stranger's would be. */
  public BlindFeed {
    if (!(fedMgL >= 0)) {
      throw new IllegalArgumentException("fed blind: " + fedMgL + " mg/L");
    }
  }

  /** What is seen of the water on one scan. */
  enum Sight {
    /** ORP, pH and temperature are good, and ORP is consistent with the estimate. */
    WELL,
    /** Nothing tells: water stands at the probes, or a value is held over a short dropout. */
    NOTHING,
    /** Chlorine is limited for want of them. */
    LIMITED
  }

  /**
   * @param tested whether a person has just tested free chlorine
   * @param fedNowMgL fed since the last scan, mg/L of the pool
   * @param unprovenMgL what may have gone in before a crash, mg/L; nobody knows on what sight
   * @param seenS for how long it has been looked at since the last scan, s
   */
  BlindFeed step(
      double budgetMgL,
      Sight sight,
      boolean tested,
      double fedNowMgL,
      double unprovenMgL,
      double seenS) {
    // What is not seen now goes on as it was: a night without flow confirms nothing.
    boolean now = sight == Sight.LIMITED || (sight == Sight.NOTHING && blind);
    // What went in since the last scan went in as things were then, or are now.
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

  /** Where the ration is over, what is left then, mg/L of the pool. */
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
