package limnostat.estimate;

/**
 * A salt cell's output relative to its label, from its current. Chlorine is proportional to the
 * charge that passes (Faraday's law). Pauses for reversal, low salt and a supply at its limit all
 * show in the current. The efficiency of the coating does not, so that is left to the output's
 * gain.
 *
 * @param chargeAh charge that passed since the last calculation, Ah
 * @param labelAh charge expected by the label in that time, Ah
 * @param share output relative to the label, as last calculated
 */
public record CellOutput(double chargeAh, double labelAh, double share) {
  /** Until a current has been read for long enough. */
  static final CellOutput AS_LABELLED = new CellOutput(0, 0, 1);

  /** Recalculated after this much charge by the label: about 2 h at some 5 A (judgement). */
  private static final double ENOUGH_AH = 10;

  /** Outside these limits the meter or the label is wrong (engineering judgement). */
  private static final double LEAST = 0.3;

  private static final double MOST = 1.25;

  /**
   * @param dueAh charge by the label for the chlorine counted as fed, Ah
   * @param passedAh charge that passed, Ah; NaN: not read
   */
  CellOutput with(double dueAh, double passedAh) {
    if (!(dueAh > 0) || Double.isNaN(passedAh)) {
      return this;
    }
    CellOutput next = new CellOutput(chargeAh + passedAh, labelAh + dueAh, share);
    return next.labelAh < ENOUGH_AH ? next : next.workedOut();
  }

  /** A share outside the limits does not measure the output, so the last one stays. */
  private CellOutput workedOut() {
    double now = chargeAh / labelAh;
    return new CellOutput(0, 0, now >= LEAST && now <= MOST ? now : share);
  }
}
