package limnostat.scan;

import java.util.Optional;
import limnostat.estimate.HandMoves;
import limnostat.estimate.SlowAccount;
import limnostat.measure.Envelope;
import limnostat.measure.Moves;
import limnostat.water.ChlorineForm;
import limnostat.water.Dose;
import limnostat.water.HeatBalance;
import limnostat.water.PhChange;

/**
 * How far the pool's temperature and pH can have moved since the last scan, from the account and
 * the elapsed time.
 */
final class PoolMoves {
  /**
   * Doses may move pH by this many times the calculated change: alkalinity may be unknown, or a
   * plume not yet mixed (engineering judgement).
   */
  private static final double UNSURE = 2;

  private PoolMoves() {}

  static Moves of(ScanSettings settings, ScanState s, double elapsedS) {
    double volumeM3 = settings.estimate().volumeM3();
    // Without a feeder acid is added by hand, and nothing is fed by pH.
    boolean acid = settings.acid().fitted();
    return byHand(
        s,
        new Moves(
            HeatBalance.warmingKS() * elapsedS,
            HeatBalance.heaterKS(volumeM3) * elapsedS,
            HeatBalance.coolingKS() * elapsedS,
            acid ? PhChange.risePerS(false) * elapsedS + rise(settings, s, elapsedS) : UNKNOWN,
            (PhChange.risePerS(true) - PhChange.risePerS(false)) * elapsedS,
            acid
                ? PhChange.fallPerS() * elapsedS + UNSURE * acidFallPh(settings, s, elapsedS)
                : UNKNOWN));
  }

  /**
   * While something that a person put in mixes, the water can be anywhere between its old state and
   * the state that this leads to. A believed value narrows the bounds, so they are kept open to
   * that range, and no further.
   */
  private static Moves byHand(ScanState s, Moves moves) {
    Optional<HandMoves> mixing = s.asked().additions().mixing();
    if (mixing.isEmpty()) {
      return moves;
    }
    HandMoves hands = mixing.get();
    Envelope ph = s.measure().phModel();
    Envelope water = s.measure().waterModel();
    return new Moves(
        moves.warmerC() + beyond(hands.stepC(), hands.mostC() - water.high()),
        moves.heatedC(),
        moves.colderC() + beyond(hands.stepC(), water.low() - hands.leastC()),
        moves.phUp() + beyond(hands.phUp(), hands.mostPh() - ph.high()),
        moves.phAired(),
        moves.phDown() + beyond(hands.phDown(), ph.low() - hands.leastPh()));
  }

  /** How far a bound falls short of where it may be; 0 for an infinite bound, or without a move. */
  private static double beyond(double move, double shortBy) {
    return move > 0 && shortBy > 0 && shortBy < UNKNOWN ? shortBy : 0;
  }

  /**
   * Expected fall of pH from the acid fed since the last scan. While a base that a person put in
   * mixes, the net effect is unknown, so no fall is expected.
   */
  static double expectedFallPh(ScanSettings settings, ScanState s, double elapsedS) {
    boolean base = s.asked().additions().mixing().map(h -> h.phUp() > 0).orElse(false);
    return base ? 0 : acidFallPh(settings, s, elapsedS);
  }

  private static final double UNKNOWN = Double.POSITIVE_INFINITY;

  /** Expected fall of pH from the acid fed since the last scan, assuming acid of 31.45 %. */
  static double acidFallPh(ScanSettings settings, ScanState s, double elapsedS) {
    double acidMl = s.acid().given(settings.acid().caps(), elapsedS);
    return acidMl == 0
        ? 0
        : acidMl
            / Dose.muriaticAcidMl(1, Dose.MURIATIC_PERCENT)
            / (1000 * settings.estimate().volumeM3())
            / capacityEqL(s);
  }

  /** How much the base in the chlorine product may raise pH. */
  private static double rise(ScanSettings settings, ScanState s, double elapsedS) {
    ChlorineForm form = settings.estimate().slow().form();
    double chlorineMgL =
        s.chlorine().given(settings.chlorine().caps(), elapsedS) / settings.estimate().volumeM3();
    return chlorineMgL == 0
        ? 0
        : UNSURE * chlorineMgL * form.alkalinityAddedEqPerMg() / capacityEqL(s);
  }

  private static double capacityEqL(ScanState s) {
    SlowAccount slow = s.estimate().slow();
    return PhChange.capacityEqL(
        Math.max(20, slow.totalAlkalinity().mgL()), slow.cyanuricAcidMgL(), s.estimate().ph());
  }
}
