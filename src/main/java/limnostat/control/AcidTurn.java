package limnostat.control;

/**
 * Acid and chlorine must stay apart in time, so acid takes turns. When pH has risen, chlorine
 * pauses, the separation time passes, and one bounded dose of acid goes in. The pool then has time
 * to mix before the next dose.
 *
 * @param remainingMl what is left of this turn's dose, mL; 0: no turn is running
 * @param phaseS time since the turn began, or since the last one ended, s
 */
public record AcidTurn(double remainingMl, double phaseS) {
  /** No acid fed yet. The first turn waits for the interval like any other. */
  public static final AcidTurn IDLE = new AcidTurn(0, 0);

  /**
   * pH above the target by this much calls for acid (engineering judgement: twice a test's
   * resolution).
   */
  private static final double DEADBAND_PH = 0.1;

  /**
   * Time for the pool to mix between turns, s (engineering judgement: a third of a 6 h turnover).
   */
  private static final double INTERVAL_S = 2 * 3600.0;

  /** A turn that cannot finish is abandoned after this long, s. */
  private static final double GIVE_UP_S = 3600;

  /**
   * Dose of a turn, mL per m³ and pH unit, small enough that no turn overshoots: about half of what
   * takes water of alkalinity 100 mg/L from 7.8 to 7.5 (6.9 mL/m³ of 31.45 % acid for 0.3, computed
   * in water-chemistry section 8).
   */
  private static final double DOSE_ML_M3_PH = 11;

  /** A turn never doses for more than this error, however high pH reads (engineering judgement). */
  private static final double ERROR_MAX_PH = 0.5;

  public boolean running() {
    return remainingMl > 0;
  }

  /**
   * @param ph fresh pH; NaN: pH is not fresh or acid cannot be fed, so no turn begins
   * @param givenMl acid that went in since the last scan, mL
   */
  AcidTurn step(double ph, double targetPh, double volumeM3, double givenMl, double elapsedS) {
    double phase = phaseS + elapsedS;
    if (running()) {
      double remaining = remainingMl - givenMl;
      return remaining <= 0 || phase >= GIVE_UP_S ? IDLE : new AcidTurn(remaining, phase);
    }
    boolean wanted = ph > targetPh + DEADBAND_PH;
    return wanted && phase >= INTERVAL_S
        ? new AcidTurn(DOSE_ML_M3_PH * volumeM3 * Math.min(ERROR_MAX_PH, ph - targetPh), 0)
        : new AcidTurn(0, phase);
  }
}
