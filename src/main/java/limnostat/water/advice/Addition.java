package limnostat.water.advice;

/** A kind of treatment of the water, and how much time must pass between two of them. */
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

  /** A turnover, and the usual wait after chlorine (common practice, no source). */
  private static final double MIXED_H = 6;

  /**
   * For two oxidisers, or two products that cloud together: a turnover is not enough (judgement).
   */
  private static final double APART_H = 24;

  /**
   * Hours that must pass between these two, whichever comes first. Never 0: only one product at a
   * time.
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
