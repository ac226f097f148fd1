package limnostat.estimate;

import limnostat.water.Alkalinity;
import limnostat.water.PhChange;

/**
 * How far a person's addition may move pH and temperature from their earlier values. While the
 * water mixes, no probe is doubted within these bounds.
 *
 * @param fromPh pH before
 * @param phUp how far it may rise
 * @param phDown how far it may fall
 * @param fromC water temperature before, °C
 * @param stepC how far that may move to either side, °C
 */
public record HandMoves(double fromPh, double phUp, double phDown, double fromC, double stepC) {
  static final HandMoves NONE = new HandMoves(7, 0, 0, 25, 0);

  /**
   * The move may be this many times the calculated one: unknown alkalinity, a plume at the probe
   * (engineering judgement, as for what is fed).
   */
  private static final double UNSURE = 2;

  /** Largest move that a person can cause, pH units. */
  private static final double MOST_PH = 4;

  /** Least alkalinity assumed for the water, mg/L as CaCO3 (engineering judgement). */
  private static final double LEAST_ALKALINITY_MG_L = 20;

  /** Largest difference of fill water from the pool (engineering judgement): pH, and °C. */
  private static final double FILL_PH = 1.5;

  private static final double FILL_C = 25;

  /** Data read back from a ledger is checked like untrusted input. */
  public HandMoves {
    if (!Double.isFinite(fromPh)
        || !Double.isFinite(fromC)
        || !(phUp >= 0 && phUp <= 2 * MOST_PH)
        || !(phDown >= 0 && phDown <= 2 * MOST_PH)
        || !(stepC >= 0 && stepC <= 2 * FILL_C)) {
      throw new IllegalArgumentException(
          "no move: pH +" + phUp + " -" + phDown + " from " + fromPh + ", " + stepC + " °C");
    }
  }

  static HandMoves of(EstimateState state, WaterChange change, double replacedShare) {
    SlowAccount slow = state.slow();
    double capacityMgL =
        Alkalinity.CACO3_MG_EQ
            * PhChange.capacityEqL(
                Math.max(LEAST_ALKALINITY_MG_L, slow.totalAlkalinity().mgL()),
                slow.cyanuricAcidMgL(),
                state.ph());
    double ph = Math.min(MOST_PH, UNSURE * Math.abs(change.baseMgL()) / capacityMgL);
    double fillPh = FILL_PH * replacedShare;
    return new HandMoves(
        state.ph(),
        (change.baseMgL() > 0 ? ph : 0) + fillPh,
        (change.baseMgL() < 0 ? ph : 0) + fillPh,
        state.waterC(),
        FILL_C * replacedShare);
  }

  boolean any() {
    return phUp > 0 || phDown > 0 || stepC > 0;
  }

  /** Two additions that mix at the same time. */
  HandMoves and(HandMoves other) {
    return new HandMoves(
        (fromPh + other.fromPh) / 2,
        Math.min(2 * MOST_PH, phUp + other.phUp + apart(other)),
        Math.min(2 * MOST_PH, phDown + other.phDown + apart(other)),
        (fromC + other.fromC) / 2,
        Math.min(2 * FILL_C, stepC + other.stepC + Math.abs(fromC - other.fromC) / 2));
  }

  private double apart(HandMoves other) {
    return Math.abs(fromPh - other.fromPh) / 2;
  }

  /** Highest pH that the additions explain. */
  public double mostPh() {
    return fromPh + phUp;
  }

  public double leastPh() {
    return fromPh - phDown;
  }

  public double mostC() {
    return fromC + stepC;
  }

  public double leastC() {
    return fromC - stepC;
  }
}
