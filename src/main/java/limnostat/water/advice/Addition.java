package limnostat.water.advice;

/** A kind of thing that is done to the water, and how long must lie between two of them. */
public enum Addition {
  CHLORINE,
  NON_CHLORINE_OXIDISER,
  ACID,
  BICARBONATE,
  SODA_ASH,
  CALCIUM,
  STABILISER,
  SALT,
  DILUTION;

  /** A turnover, and the trade's wait after chlorine (common practice, no source). */
  private static final double MIXED_H = 6;

  /** Where a turnover is not enough: two oxidisers, or what clouds together (judgement). */
  private static final double APART_H = 24;

  /**
   * Hours that must lie between these two, whichever comes first. Never 0: only ever one product at
   * a time.
   */
  public double hoursFrom(Addition other) {
    boolean apart =
        either(other, CHLORINE, NON_CHLORINE_OXIDISER)
            || either(other, BICARBONATE, CALCIUM)
            || either(other, SODA_ASH, CALCIUM);
    return apart ? APART_H : MIXED_H;
  }

  private boolean either(Addition other, Addition a, Addition b) {
    return (this == a && other == b) || (this == b && other == a);
  }
}
