package limnostat.estimate;

/**
 * What a salt cell makes against its label, by its current: chlorine goes with the charge that
 * passes (Faraday's law). Pauses in which the cell reverses, weak salt and a supply at its limit
 * all show in it. What the coating makes of the charge does not: that is left to the output's gain.
 *
 * @param chargeAh charge that passed since it was last worked out, Ah
 * @param labelAh charge that should have passed by the label, Ah
 * @param share what it makes of its label, as last worked out
 */
public record CellOutput(double chargeAh, double labelAh, double share) {
  /** Until a current was read for long enough. */
  static final CellOutput AS_LABELLED = new CellOutput(0, 0, 1);

  /** Worked out anew after so many hours of the label's current, of some 5 A (judgement). */
  private static final double ENOUGH_AH = 10;

  /** Beyond these it is the meter or the label that is wrong (engineering judgement). */
  private static final double LEAST = 0.3;

  private static final double MOST = 1.25;

  /**
   * @param dueAh charge by the label of what was counted as given, Ah
   * @param passedAh what passed, Ah; not a number: not read
   */
  CellOutput with(double dueAh, double passedAh) {
    if (!(dueAh > 0) || Double.isNaN(passedAh)) {
      return this;
    }
    CellOutput next = new CellOutput(chargeAh + passedAh, labelAh + dueAh, share);
    return next.labelAh < ENOUGH_AH ? next : next.workedOut();
  }

  /** One outside the bounds is no measure of the output: what was last worked out stands. */
  private CellOutput workedOut() {
    double now = chargeAh / labelAh;
    return new CellOutput(0, 0, now >= LEAST && now <= MOST ? now : share);
  }
}
