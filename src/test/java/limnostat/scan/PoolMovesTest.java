package limnostat.scan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import limnostat.account.DoseAccount;
import limnostat.actuate.Modulator;
import limnostat.measure.Moves;
import limnostat.scan.ScanSettings.Channel;
import limnostat.scan.ScanState.Phase;
import limnostat.water.HeatBalance;
import limnostat.water.PhChange;
import org.junit.jupiter.api.Test;

/** A 50 m³ salt pool at 46° N, alkalinity taken as 100 mg/L, stabiliser 30 mg/L, pH 7.5. */
class PoolMovesTest {
  private static final ScanSettings POOL = TestSettings.pool();

  private static ScanState on(double chlorine, double acid) {
    ScanState s = ScanState.start(POOL);
    return new ScanState(
        Phase.RUNNING,
        s.measure(),
        s.estimate(),
        s.control(),
        s.safety(),
        new OutputState(new Modulator.State(chlorine, 0, 0, 0), DoseAccount.empty()),
        new OutputState(new Modulator.State(acid, 0, 0, 0), DoseAccount.empty()),
        s.alarms(),
        s.sun(),
        s.annunciator(),
        s.totals());
  }

  private static Moves moves(ScanSettings settings, ScanState s) {
    return PoolMoves.of(settings, s, 60);
  }

  @Test
  void nothingFedIsWhatWaterDoesByItself() {
    Moves m = moves(POOL, on(0, 0));
    assertEquals(60 * HeatBalance.warmingKS(), m.warmerC(), 1e-12);
    assertEquals(60 * HeatBalance.heaterKS(50), m.heatedC(), 1e-12);
    assertEquals(60 * HeatBalance.coolingKS(), m.colderC(), 1e-12);
    assertEquals(60 * PhChange.risePerS(false), m.phUp(), 1e-12);
    assertEquals(60 * PhChange.risePerS(true), m.phUp() + m.phAired(), 1e-12);
    assertEquals(60 * PhChange.fallPerS(), m.phDown(), 1e-12);
  }

  /** 25 mL in a minute: 0.25 eq in 50 m³ are 5 µeq/L. */
  @Test
  void acidLowersPhAtMostByTwiceWhatItShould() {
    double fall = PoolMoves.acidFallPh(POOL, on(0, 1), 60);
    assertEquals(
        25 * 10.01 / 1000 / 50_000 / PhChange.capacityEqL(100, 30, 7.5), fall, 0.005 * fall);
    assertTrue(fall > 0.01 && fall < 0.03, "" + fall);
    Moves m = moves(POOL, on(0, 1));
    assertEquals(60 * PhChange.fallPerS() + 2 * fall, m.phDown(), 1e-12);
    assertEquals(0, PoolMoves.acidFallPh(POOL, on(1, 0), 60), 0);
  }

  /**
   * A third of a gram in a minute is 0.0067 mg/L, with an equivalent of base a mole of 70.906 g.
   */
  @Test
  void theBaseInChlorineLiftsIt() {
    double rise = 20 / 60.0 / 50 / 70_906 / PhChange.capacityEqL(100, 30, 7.5);
    Moves m = moves(POOL, on(1, 0));
    assertEquals(60 * PhChange.risePerS(false) + 2 * rise, m.phUp(), 0.01 * rise);
  }

  @Test
  void withoutAnAcidOutputPhMayDoAnything() {
    ScanSettings none =
        new ScanSettings(
            POOL.measure(),
            POOL.estimate(),
            POOL.control(),
            POOL.limits(),
            POOL.chlorine(),
            Channel.NONE);
    Moves m = moves(none, on(0, 0));
    assertEquals(Double.POSITIVE_INFINITY, m.phUp());
    assertEquals(Double.POSITIVE_INFINITY, m.phDown());
    assertTrue(Double.isFinite(m.warmerC() + m.colderC()));
  }
}
