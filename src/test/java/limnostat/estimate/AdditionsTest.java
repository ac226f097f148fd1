package limnostat.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.NoSuchElementException;
import java.util.Random;
import limnostat.rig.Fixtures;
import org.junit.jupiter.api.Test;

/** Additions in a pool of 50 m³ with 30 mg/L of stabiliser and 3400 mg/L of salt. */
class AdditionsTest {
  private static final double M3 = 50;
  private static final double HOUR = 3600;
  private static final double DAY = 24 * HOUR;
  private static final EstimateSettings POOL = Fixtures.SALT_POOL;

  private EstimateState known = tested(Estimator.start(POOL, 3), 2);
  private Additions additions = Additions.NONE;

  private static EstimateState tested(EstimateState state, double mgL) {
    return Estimator.test(
        state,
        WaterTest.EMPTY
            .with(Tested.FREE_CHLORINE, mgL)
            .by(TestKit.PHOTOMETER, BelievedNow.of(state)));
  }

  /** Time passes for the account and the log of tests, and the filter itself stands still. */
  private void pass(double seconds) {
    for (double left = seconds; left > 0; left -= HOUR) {
      double step = Math.min(HOUR, left);
      Additions.Moved moved = additions.step(aged(known, step), step);
      additions = moved.additions();
      known = moved.estimate();
    }
  }

  private static EstimateState aged(EstimateState s, double seconds) {
    return new EstimateState(
        s.mixture(),
        s.belief(),
        s.residual(),
        s.slow(),
        s.testedOffsetMv(),
        s.ph(),
        s.waterC(),
        s.sinceS(),
        s.fed(),
        s.window(),
        s.consistency(),
        s.tests().aged(0.1, s.slow(), seconds));
  }

  private Additions.Entered enter(Product product, double amount, double agoS) {
    Additions.Entered entered =
        additions.entered(M3, known, product, amount, product.strength().usual(), agoS);
    additions = entered.additions();
    known = entered.estimate();
    return entered;
  }

  private void undo(String id) {
    Additions.Moved undone = additions.undone(known, id);
    additions = undone.additions();
    known = undone.estimate();
  }

  private double mgL() {
    return BelievedNow.of(known).mgL();
  }

  private double sdMgL() {
    return BelievedNow.of(known).sdMgL();
  }

  /** 1 L of 12.5 trade % is 125 g, 2.5 mg/L in 50 m³; 25 % and 15 % of it are 0.73. */
  @Test
  void freeChlorineRisesByTheDoseWithItsError() {
    double before = mgL();
    double sd = sdMgL();
    enter(Product.LIQUID_CHLORINE, 1000, 0);
    assertEquals(before + 2.5, mgL(), 0.03);
    assertEquals(Math.sqrt(sd * sd + 0.73 * 0.73), sdMgL(), 0.05);
    assertEquals(125, additions.chlorineG());
  }

  /** All hypotheses move, so that none gains by it. */
  @Test
  void theSlopesOfTheElectrodeAreWeighedAsBefore() {
    double[] before = known.mixture().weights();
    enter(Product.CALCIUM_HYPOCHLORITE, 500, 0);
    double[] after = known.mixture().weights();
    for (int i = 0; i < before.length; i++) {
      assertEquals(before[i], after[i]);
    }
  }

  /** exp(−0.5 × 0.5) of it is left after twelve hours. */
  @Test
  void whatIsEnteredLateHasLostSomeSinceAndIsLessSure() {
    pass(DAY);
    double before = mgL();
    enter(Product.CALCIUM_HYPOCHLORITE, 500, 0);
    double now = mgL() - before;
    double sdNow = sdMgL();
    undo("a1");
    known = tested(tested(known, 2), 2);
    pass(DAY);
    before = mgL();
    enter(Product.CALCIUM_HYPOCHLORITE, 500, 12 * HOUR);
    assertEquals(0.78 * now, mgL() - before, 0.05 * now);
    assertTrue(sdMgL() > 1.2 * sdNow, sdMgL() + " and " + sdNow);
  }

  @Test
  void whatATestHasSeenIsNotCountedTwice() {
    double before = mgL();
    Additions.Entered entered = enter(Product.DICHLOR, 500, 3 * HOUR);
    assertTrue(entered.testedAfter());
    assertEquals(before, mgL(), "the test is younger than the addition");
    assertEquals(30 + 5.6 * 0.91, known.slow().cyanuricAcidMgL(), 0.01, "stabiliser is not tested");
    assertFalse(enter(Product.DICHLOR, 500, 0.5 * HOUR).testedAfter(), "tested, then poured");
    assertTrue(mgL() > before + 4);
  }

  /** Tablets of 1 kg are 18 mg/L over five days: not at once. */
  @Test
  void tabletsDissolveHourByHour() {
    double before = mgL();
    enter(Product.TRICHLOR, 1000, 0);
    assertEquals(before, mgL());
    pass(DAY);
    assertEquals(before + 3.6, mgL(), 0.3);
    assertEquals(30 + 3.6 * 0.607, known.slow().cyanuricAcidMgL(), 0.05);
    pass(4 * DAY);
    double all = mgL();
    assertEquals(before + 18, all, 1.5, "the filter stands still here, so nothing is lost");
    pass(1.5 * DAY);
    assertEquals(all, mgL());
    assertEquals(1, additions.of("a1").orElseThrow().broughtShare());
  }

  /** The label's error of all parts together is that of the whole: 20 % of 18 mg/L. */
  @Test
  void partsOfATabletShareTheErrorOfItsLabel() {
    enter(Product.TRICHLOR, 1000, 0);
    pass(5 * DAY);
    assertTrue(sdMgL() > 3 && sdMgL() < 5.5, "sd " + sdMgL());
  }

  @Test
  void theSlowAccountFollowsWithADeviationOfItsOwn() {
    double sd = known.slow().totalAlkalinity().sdMgL();
    enter(Product.MURIATIC_ACID, 1000, 0); // 10.01 eq in 50 m³: 10.0 mg/L
    assertEquals(90, known.slow().totalAlkalinity().mgL(), 0.1);
    assertTrue(known.slow().totalAlkalinity().sdMgL() > sd);
    enter(Product.BICARBONATE, 1000, 0); // 20 g/m³ of 1.679 g a mg/L
    assertEquals(90 + 11.9, known.slow().totalAlkalinity().mgL(), 0.1);
    enter(Product.SALT, 20_000, 0);
    assertEquals(3400 + 400 + 11.7, known.slow().salt().mgL(), 1);
    enter(Product.CALCIUM_CHLORIDE, 5000, 0); // 100 g/m³: 69.4 as CaCO3
    assertEquals(250 + 69.4, known.slow().calciumHardness().mgL(), 0.5);
    enter(Product.STABILISER, 500, 0);
    assertEquals(40, known.slow().cyanuricAcidMgL(), 0.01);
  }

  /** A fifth let out: four fifths of what is dissolved are left. */
  @Test
  void waterLetOutDilutesOnceHoweverItIsEntered() {
    double before = mgL();
    enter(Product.WATER_OUT, 10_000, 0);
    assertEquals(24, known.slow().cyanuricAcidMgL(), 1e-9);
    assertEquals(2720, known.slow().salt().mgL(), 1e-9);
    assertEquals(0.8 * before, mgL(), 0.01);
    pass(5 * HOUR);
    enter(Product.FRESH_WATER, 10_000, 0);
    assertEquals(24, known.slow().cyanuricAcidMgL(), 1e-9, "the same water");
    assertEquals(0.8 * before, mgL(), 0.01);
    pass(3 * DAY);
    enter(Product.FRESH_WATER, 10_000, 0);
    assertEquals(24 * Math.exp(-0.2), known.slow().cyanuricAcidMgL(), 1e-9, "it ran over");
  }

  @Test
  void anUndoTakesBackWhatIsStillThere() {
    double before = mgL();
    double sd = sdMgL();
    SlowAccount slow = known.slow();
    enter(Product.DICHLOR, 500, 0);
    undo("a1");
    assertEquals(before, mgL(), 0.05);
    assertTrue(sdMgL() > 2 * sd, "what was wrong for a while is less sure");
    assertEquals(slow.cyanuricAcidMgL(), known.slow().cyanuricAcidMgL(), 1e-9);
    assertTrue(known.slow().stabiliser().sdMgL() > slow.stabiliser().sdMgL());
    assertEquals(slow.salt().mgL(), known.slow().salt().mgL(), 1e-9);
    assertEquals(0, additions.chlorineG(), 1e-9);
    assertTrue(additions.of("a1").orElseThrow().undone());
    assertThrows(NoSuchElementException.class, () -> additions.undone(known, "a9"));
  }

  @Test
  void anUndoneTabletDissolvesNoFurther() {
    enter(Product.TRICHLOR, 1000, 0);
    pass(DAY);
    double all = mgL();
    undo("a1");
    assertTrue(mgL() < all - 2.5, all + " to " + mgL());
    double left = mgL();
    pass(DAY);
    assertEquals(left, mgL());
  }

  @Test
  void anUndoOfDilutionConcentratesAgain() {
    double before = mgL();
    enter(Product.WATER_OUT, 10_000, 0);
    undo("a1");
    assertEquals(30, known.slow().cyanuricAcidMgL(), 1e-9);
    assertEquals(before, mgL(), 0.1);
    enter(Product.WATER_OUT, 1000 * M3, 0);
    assertEquals(0, known.slow().cyanuricAcidMgL(), 1e-9);
    undo("a2");
    assertTrue(known.slow().cyanuricAcidMgL() >= 0);
  }

  /** A test since then knows better than what is reckoned. */
  @Test
  void whatATestHasCorrectedIsNotTakenBackAgain() {
    enter(Product.CALCIUM_HYPOCHLORITE, 500, 0);
    pass(2 * HOUR);
    known = tested(known, 6.5);
    double believed = mgL();
    pass(HOUR);
    undo("a1");
    assertEquals(believed, mgL());
  }

  @Test
  void theLastOnesAreKeptAndAWeekAtMost() {
    enter(Product.TRICHLOR, 200, 0);
    for (int i = 0; i < 20; i++) {
      enter(Product.SALT, 100, 0);
    }
    assertEquals(Additions.MOST, additions.kept().size());
    assertTrue(additions.of("a1").isPresent(), "a tablet that dissolves stays");
    assertTrue(additions.of("a2").isEmpty());
    assertTrue(additions.of("a21").isPresent());
    pass(8 * DAY);
    assertEquals(List.of(), additions.kept());
    assertEquals(21, additions.count(), "an id is never used again");
    assertSame(additions, additions.step(known, 1).additions(), "nothing is left to do");
  }

  @Test
  void whatMixesMayMoveThePh() {
    assertTrue(additions.mixing().isEmpty());
    enter(Product.MURIATIC_ACID, 1000, 0);
    HandMoves acid = additions.mixing().orElseThrow();
    // 0.2 meq/L at alkalinity 100: pH 7.8 to 7.18 (water-chemistry section 8), twice that allowed
    assertTrue(acid.leastPh() < 7.5 - 0.6 && acid.leastPh() > 7.5 - 2, acid.toString());
    assertEquals(7.5, acid.mostPh());
    assertEquals(25, acid.leastC());
    enter(Product.SODA_ASH, 500, 0);
    HandMoves both = additions.mixing().orElseThrow();
    assertEquals(acid.leastPh(), both.leastPh());
    assertTrue(both.mostPh() > 7.7, both.toString());
    undo("a2");
    assertEquals(acid, additions.mixing().orElseThrow());
    pass(5.9 * HOUR);
    assertTrue(additions.mixing().isPresent());
    pass(0.2 * HOUR);
    assertTrue(additions.mixing().isEmpty());
    enter(Product.MURIATIC_ACID, 1000, 7 * HOUR);
    assertTrue(additions.mixing().isEmpty(), "it has mixed");
    enter(Product.FRESH_WATER, 5000, 0);
    assertTrue(additions.mixing().orElseThrow().leastC() < 24);
  }

  /** Whatever people enter, in any order: a belief that is finite, and amounts of at least 0. */
  @Test
  void nothingThatIsEnteredBreaksTheBelief() {
    for (long seed = 1; seed <= 40; seed++) {
      Random random = new Random(seed);
      known = tested(Estimator.start(POOL, 3), 6 * random.nextDouble());
      additions = Additions.NONE;
      for (int i = 0; i < 60; i++) {
        String label = "seed " + seed + ", step " + i;
        switch (random.nextInt(4)) {
          case 0 -> pass(DAY * random.nextDouble());
          case 1 -> {
            if (!additions.kept().isEmpty()) {
              Addition a = additions.kept().get(random.nextInt(additions.kept().size()));
              if (!a.undone()) {
                undo(a.id());
              }
            }
          }
          default -> {
            Product product =
                List.of(Product.values()).get(random.nextInt(Product.values().length));
            enter(product, Math.pow(10, 1 + 3.5 * random.nextDouble()), DAY * random.nextDouble());
          }
        }
        double mgL = mgL();
        assertTrue(mgL >= 0.01 - 1e-12 && mgL <= 100 + 1e-9, label + ": " + mgL);
        assertTrue(sdMgL() >= 0 && Double.isFinite(sdMgL()), label);
        assertTrue(known.slow().stabiliser().mgL() >= 0, label);
        assertTrue(Double.isFinite(known.slow().salt().sdMgL()), label);
      }
    }
  }

  /** An undo of more than there is leaves little, and not the certainty of none. */
  @Test
  void takingAwayMoreThanThereIsLeavesDoubt() {
    known = Estimator.added(known, -5, 2);
    assertTrue(mgL() >= 0.5 && mgL() <= 1.1, "1.0 is half of the deviation: " + mgL());
    assertTrue(sdMgL() > mgL(), "sd " + sdMgL());
  }
}
