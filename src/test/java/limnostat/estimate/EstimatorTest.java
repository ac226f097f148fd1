package limnostat.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import limnostat.measure.Measurement;
import limnostat.measure.Measurements;
import limnostat.measure.Outside;
import limnostat.measure.Plausibility;
import limnostat.measure.Status;
import limnostat.rig.Fixtures;
import limnostat.water.ChlorineForm;
import org.junit.jupiter.api.Test;

class EstimatorTest {
  /** 50 m³ at 46° N, stabiliser 30 mg/L, demand 2 mg/L a day, free chlorine 2 mg/L. */
  private static final EstimateSettings SETTINGS = Fixtures.SALT_POOL;

  private static final double TARGET_MG_L = 3;
  private static final double NOON = 1_782_907_200; // 2026-07-01T12:00:00Z

  private static final Electrode NOMINAL =
      new Electrode(Electrode.SLOPE_MV, Electrode.Trust.ORDINARY);

  private static final Measurement FAILED =
      new Measurement.None(Status.FAILURE, List.of(Plausibility.PRESENT), OptionalDouble.empty());

  private static Measurement value(double value) {
    return new Measurement.Value(value, Status.GOOD, 0, List.of());
  }

  private static Measurement held(double value) {
    return new Measurement.Value(
        value, Status.OUT_OF_SPECIFICATION, 10, List.of(Plausibility.PRESENT));
  }

  private static Measurements measured(Measurement orpMv, Measurement ph) {
    return new Measurements(
        orpMv,
        ph,
        value(25),
        true,
        Optional.empty(),
        600,
        true,
        Optional.empty(),
        OptionalDouble.empty(),
        false,
        false,
        Outside.UNKNOWN);
  }

  private static final Measurements NOTHING = measured(FAILED, FAILED);

  private static WaterTest test(double freeChlorineMgL) {
    return test(OptionalDouble.of(freeChlorineMgL), OptionalDouble.empty());
  }

  private static WaterTest test(OptionalDouble freeChlorineMgL, OptionalDouble cyanuricAcidMgL) {
    return WaterTest.EMPTY
        .with(Tested.FREE_CHLORINE, freeChlorineMgL)
        .with(Tested.PH, 7.4)
        .with(Tested.CYANURIC_ACID, cyanuricAcidMgL);
  }

  private EstimateState state = Estimator.start(SETTINGS, TARGET_MG_L);
  private double nowS = NOON;

  private Estimate run(Measurements measured, double givenG, double seconds) {
    nowS += seconds;
    Estimator.Result result =
        Estimator.step(
            SETTINGS, state, measured, givenG, TARGET_MG_L, Hour.of(SETTINGS, nowS), seconds);
    state = result.state();
    return result.estimate();
  }

  /** The electrode's level, with what it is off by for now. */
  private double offsetMv() {
    return state.belief().mean()[PoolModel.OFFSET] + state.belief().mean()[PoolModel.WANDER];
  }

  @Test
  void aTestMovesTheEstimateTowardsItAndMakesItSurer() {
    Estimate before = run(NOTHING, 0, 1);
    state = Estimator.test(state, test(3.1));
    Estimate after = run(NOTHING, 0, 1);
    assertTrue(after.freeChlorineMgL() > before.freeChlorineMgL() + 0.7);
    assertTrue(after.freeChlorineMgL() < 3.1);
    // The test's sd 0.31 (10 % of 3.1) and the kit's 7 % of 3, against a first guess of 50 %.
    assertEquals(0.35, after.freeChlorineSdMgL(), 0.05);
  }

  /** The file's guess is a guess: whatever the first test reads, the estimate goes to it. */
  @Test
  void theFirstTestIsFollowedHoweverFarOffTheGuessWas() {
    for (double read : new double[] {0.3, 0.8, 4, 5.5, 7, 9}) {
      state = Estimator.start(SETTINGS, TARGET_MG_L);
      run(NOTHING, 0, 600);
      state = Estimator.test(state, test(read));
      double found = run(NOTHING, 0, 1).freeChlorineMgL();
      assertTrue(found > 0.75 * read - 0.1 && found < 1.25 * read + 0.5, read + ": " + found);
    }
  }

  @Test
  void aTestOfNothingIsBorne() {
    state = Estimator.test(state, test(0));
    assertTrue(run(NOTHING, 0, 1).freeChlorineMgL() < 0.7);
  }

  /** 100 g in 50 m³ are 2 mg/L. */
  @Test
  void aDoseRaisesTheEstimateByGramsOverVolume() {
    double before = run(NOTHING, 0, 1).freeChlorineMgL();
    assertEquals(before + 2, run(NOTHING, 100, 1).freeChlorineMgL(), 1e-4);
  }

  @Test
  void withoutInformationItGrowsUnsure() {
    state = Estimator.test(state, test(3));
    double before = run(NOTHING, 0, 1).freeChlorineSdMgL();
    for (int day = 1; day <= 7; day++) {
      Estimate estimate = run(NOTHING, 100, 86_400);
      assertTrue(estimate.freeChlorineSdMgL() > before, "day " + day);
      assertTrue(estimate.demandSdMgLDay() > 0);
    }
  }

  /** One sample a second for an hour is two corrections, by the mean of half an hour each. */
  @Test
  void theElectrodeCorrectsEveryHalfHour() {
    int corrections = 0;
    for (int s = 0; s < 3600; s++) {
      double innovationMv = state.consistency().innovationMv();
      run(measured(value(650), value(7.4)), 0, 1);
      corrections += state.consistency().innovationMv() != innovationMv ? 1 : 0;
    }
    assertEquals(2, corrections);
  }

  @Test
  void noCorrectionByAHeldOrFailedOrpNorWithoutPh() {
    double start = offsetMv();
    for (Measurements unfit :
        List.of(
            measured(held(300), value(7.4)),
            measured(FAILED, value(7.4)),
            measured(value(300), FAILED))) {
      run(unfit, 0, 2000);
      assertEquals(start, offsetMv(), 1e-9);
      assertEquals(0, state.consistency().innovationMv());
    }
    run(measured(value(300), value(7.4)), 0, 1800);
    assertNotEquals(start, offsetMv(), 1, "half an hour after both are there again");
  }

  /** Slow drift of the electrode ends in the offset, never in the setpoint. */
  @Test
  void theSetpointFollowsTestsOnly() {
    state = Estimator.test(state, test(2));
    double testedStartMv = state.testedOffsetMv();
    double setpointMv = run(measured(value(690), value(7.4)), 0, 1).orpSetpointMv();
    for (int i = 0; i < 100; i++) {
      Estimate estimate = run(measured(value(600), value(7.4)), 1, 600);
      assertEquals(setpointMv, estimate.orpSetpointMv(), 1e-9);
    }
    assertTrue(offsetMv() < testedStartMv - 5, "offset " + offsetMv());
    double testedMv = state.testedOffsetMv();
    state = Estimator.test(state, test(2));
    assertEquals(setpointMv + offsetMv() - testedMv, run(NOTHING, 0, 1).orpSetpointMv(), 1e-6);
    assertEquals(offsetMv(), state.testedOffsetMv());
  }

  /** A test of pH alone says nothing of the electrode: its drift must not reach the setpoint. */
  @Test
  void aTestWithoutFreeChlorineLeavesTheSetpoint() {
    double setpointMv = run(measured(value(690), value(7.4)), 0, 1).orpSetpointMv();
    for (int i = 0; i < 100; i++) {
      run(measured(value(600), value(7.4)), 1, 600);
    }
    state = Estimator.test(state, test(OptionalDouble.empty(), OptionalDouble.empty()));
    assertEquals(setpointMv, run(measured(value(600), value(7.4)), 0, 1).orpSetpointMv(), 1e-9);
  }

  /** A told stabiliser that was wrong changes nothing of what the electrode has shown. */
  @Test
  void anotherToldStabiliserLeavesTheSetpoint() {
    double before = run(measured(FAILED, value(7.5)), 0, 1).orpSetpointMv();
    state = Estimator.test(state, test(OptionalDouble.empty(), OptionalDouble.of(100)));
    assertEquals(100, state.slow().cyanuricAcidMgL(), 5);
    assertEquals(before, run(measured(FAILED, value(7.5)), 0, 1).orpSetpointMv(), 0.5);
  }

  /** What the electrode is believed to show at 3 mg/L, pH 7.5 and 25 °C, mV. */
  private double believedMv() {
    double[] x = state.belief().mean().clone();
    x[PoolModel.LN_FREE_CHLORINE] = StrictMath.log(3);
    return new PoolModel.OrpSensor(NOMINAL, state.slow().cyanuricAcidMgL(), 7.5, 25).expected(x);
  }

  private static SlowAccount withStabiliser(SlowAccount slow, double mgL) {
    return new SlowAccount(
        new Dissolved(mgL, 10, 0),
        slow.salt(),
        slow.calciumHardness(),
        slow.totalAlkalinity(),
        0,
        slow.fileStabiliserMgL(),
        slow.fileSaltMgL(),
        slow.pending());
  }

  /** The slope that all hypotheses together suppose. */
  private double meanSlopeMv() {
    double[] weight = state.mixture().weights();
    double mean = 0;
    for (int i = 0; i < weight.length; i++) {
      mean += weight[i] * state.mixture().hypotheses().get(i).electrode().slopeMv();
    }
    return mean;
  }

  /**
   * Stabiliser that came in with the chlorine takes HOCl, and the electrode shows it. At 3 mg/L and
   * pH 7.5 HOCl is 0.0431 mg/L beside 30 mg/L of stabiliser and 0.0246 beside 50 (O'Brien and
   * others; water-chemistry section 2): 0.2436 decades.
   */
  @Test
  void moreStabiliserLowersWhatTheElectrodeShows() {
    double beforeMv = believedMv();
    double setpointMv = run(measured(FAILED, value(7.5)), 0, 1).orpSetpointMv();
    double slopeMv = meanSlopeMv();
    Mixture before = state.mixture();
    state = state.drifted(withStabiliser(state.slow(), 50));
    for (int i = 0; i < before.hypotheses().size(); i++) {
      Mixture.Hypothesis was = before.hypotheses().get(i);
      assertEquals(
          -0.2436 * was.electrode().slopeMv(),
          state.mixture().hypotheses().get(i).belief().mean()[PoolModel.OFFSET]
              - was.belief().mean()[PoolModel.OFFSET],
          0.02,
          "each hypothesis by its own slope");
    }
    assertEquals(-0.2436 * slopeMv, believedMv() - beforeMv, 0.2);
    assertEquals(
        setpointMv - 0.2436 * Electrode.SLOPE_MV,
        run(measured(FAILED, value(7.5)), 0, 1).orpSetpointMv(),
        0.2,
        "the setpoint too, for the same target");
    assertEquals(50, state.slow().cyanuricAcidMgL());
  }

  /** The whole way: a month of trichlor through the account, hour by hour. */
  @Test
  void theDriftOfTheAccountReachesTheElectrode() {
    EstimateSettings tablets =
        new EstimateSettings(
            50, 46, 8, SlowSettings.configured(30, 3400, ChlorineForm.TRICHLOR, 1), 2, 2);
    double beforeMv = believedMv();
    for (int hour = 0; hour < 30 * 24; hour++) {
      state = state.drifted(state.slow().step(tablets, 100 / 24.0, 0, 3600));
    }
    double mgL = state.slow().cyanuricAcidMgL();
    assertTrue(mgL > 55 && mgL < 65, mgL + " mg/L");
    double decades = PoolModel.referenceLogHocl(mgL) - PoolModel.referenceLogHocl(30);
    assertEquals(decades * meanSlopeMv(), believedMv() - beforeMv, 1e-6);
  }

  /** A test that corrects the account finds what has been so all along: the electrode was right. */
  @Test
  void aTestOfStabiliserMovesNoBelievedReading() {
    double beforeMv = believedMv();
    state = Estimator.test(state, test(OptionalDouble.empty(), OptionalDouble.of(60)));
    assertTrue(state.slow().cyanuricAcidMgL() > 50);
    assertEquals(beforeMv, believedMv(), 1e-9);
    assertEquals(state.belief().mean()[PoolModel.OFFSET], state.testedOffsetMv(), 1e-9);
  }

  @Test
  void polarNightAndDayAndALongOutageAreBorne() {
    EstimateSettings north =
        new EstimateSettings(
            50, 80, 8, SlowSettings.configured(30, 3400, ChlorineForm.SALT_CELL, 1), 2, 2);
    for (double unixTimeS : new double[] {NOON, NOON - 180 * 86_400.0, -1e9, 1e11}) {
      Estimate estimate =
          Estimator.step(north, state, NOTHING, 0, TARGET_MG_L, Hour.of(north, unixTimeS), 1e8)
              .estimate();
      assertTrue(Double.isFinite(estimate.freeChlorineMgL()), "at " + unixTimeS);
      assertTrue(estimate.freeChlorineMgL() >= 0);
    }
  }

  /** Known to be 3 mg/L, then a test of 9: it counts in part, and another is asked for. */
  private void contradicted() {
    known();
    run(measured(value(690), value(7.4)), 0, 1800);
    state = Estimator.test(state, test(9));
    assertEquals(TestVerdict.DOUBTED, state.tests().verdict());
    assertEquals(TestDue.CONTRADICTED, run(NOTHING, 0, 1).testDue());
  }

  private void known() {
    state = Estimator.test(state, test(3.1));
    run(NOTHING, 0, 600);
    state = Estimator.test(state, test(3));
  }

  /** Less than a fifth of the way to it. */
  @Test
  void aTestFarAboveAllElseCountsInPart() {
    contradicted();
    double found = run(NOTHING, 0, 1).freeChlorineMgL();
    assertTrue(found < 3 + 0.2 * 6, found + " mg/L");
  }

  /** S12: however sure the estimate was, and whatever the kit's error is where nothing is left. */
  @Test
  void aLowTestCountsWhollyAndAtOnce() {
    for (double read : new double[] {0, 0.1, 0.3, 0.5, 1}) {
      state = Estimator.start(SETTINGS, TARGET_MG_L);
      known();
      run(measured(value(690), value(7.4)), 0, 1800);
      double before = run(NOTHING, 0, 1).freeChlorineMgL();
      assertTrue(before > 2.5, before + " mg/L before");
      state = Estimator.test(state, test(read));
      assertEquals(TestVerdict.BELIEVED, state.tests().verdict());
      Estimate after = run(NOTHING, 0, 1);
      assertTrue(
          after.freeChlorineMgL() < read + 0.15 * (before - read),
          read + " mg/L read: " + after.freeChlorineMgL());
      assertTrue(
          Math.exp(state.mixture().byBalance().mean()[PoolModel.LN_FREE_CHLORINE])
              < read + 0.25 * (before - read),
          "by doses and tests alone as well");
      assertTrue(
          after.freeChlorineMgL() + 2 * after.freeChlorineSdMgL() > read,
          read + " mg/L read: " + after);
    }
  }

  /** The electrode goes on showing what it showed: it does not take back what a person found. */
  @Test
  void noElectrodeTakesALowTestBack() {
    known();
    for (int i = 0; i < 12; i++) {
      run(measured(value(690), value(7.4)), 0, 1800);
    }
    state = Estimator.test(state, test(0.2));
    double highest = 0;
    for (int i = 0; i < 24; i++) {
      highest = Math.max(highest, run(measured(value(690), value(7.4)), 0, 1800).freeChlorineMgL());
    }
    assertTrue(highest < 1, "half a day later " + highest + " mg/L");
  }

  /** The second brings free chlorine to within the kit's 10 % of it. */
  @Test
  void twoThatAgreeAreBelievedAndTheElectrodeIsFittedAnew() {
    contradicted();
    run(NOTHING, 0, 600);
    double before = offsetMv();
    double sdBefore = Math.sqrt(state.belief().variance(PoolModel.OFFSET));
    state = Estimator.test(state, test(9.2));
    assertEquals(TestVerdict.BORNE_OUT, state.tests().verdict());
    Estimate estimate = run(NOTHING, 0, 1);
    assertEquals(9.2, estimate.freeChlorineMgL(), 0.9);
    assertEquals(TestDue.NONE, estimate.testDue());
    assertTrue(estimate.trusted());
    assertEquals(offsetMv(), state.testedOffsetMv());
    assertTrue(Math.sqrt(state.belief().variance(PoolModel.OFFSET)) > sdBefore);
    for (int i = 0; i < 4; i++) {
      run(measured(value(690), value(7.4)), 0, 1800);
    }
    assertEquals(8.5, run(NOTHING, 0, 1).freeChlorineMgL(), 1, "the electrode does not undo it");
    assertTrue(offsetMv() < before - 5, "offset " + before + " to " + offsetMv());
  }

  @Test
  void aSecondThatAgreesWithTheEstimateIsBelievedAlone() {
    contradicted();
    state = Estimator.test(state, test(2.8));
    assertEquals(TestVerdict.BELIEVED, state.tests().verdict());
    assertEquals(2.9, run(NOTHING, 0, 1).freeChlorineMgL(), 0.2);
  }

  @Test
  void theAgesOfTestsAreKept() {
    state = Estimator.test(state, test(OptionalDouble.of(3), OptionalDouble.of(50)));
    run(NOTHING, 0, 1000);
    assertEquals(1000, state.tests().freeChlorineAgeS());
    assertEquals(1000, state.tests().stabiliserAgeS());
    state = Estimator.test(state, test(OptionalDouble.empty(), OptionalDouble.of(50)));
    assertEquals(0, state.tests().stabiliserAgeS());
    assertEquals(1000, state.tests().freeChlorineAgeS());
  }

  /** Combined chlorine as tested goes before total less free, and stays until tested again. */
  @Test
  void combinedChlorineIsThatOfTheLastTest() {
    OptionalDouble two = OptionalDouble.of(2);
    state =
        Estimator.test(
            state,
            WaterTest.EMPTY.with(Tested.FREE_CHLORINE, two).with(Tested.TOTAL_CHLORINE, 2.75));
    assertEquals(0.75, state.tests().combinedChlorineMgL());
    state = Estimator.test(state, test(2));
    assertEquals(0.75, state.tests().combinedChlorineMgL(), "not tested");
    state =
        Estimator.test(
            state,
            WaterTest.EMPTY.with(Tested.FREE_CHLORINE, two).with(Tested.TOTAL_CHLORINE, 1.9));
    assertEquals(0, state.tests().combinedChlorineMgL(), "a kit's error is no combined chlorine");
    state =
        Estimator.test(
            state,
            WaterTest.EMPTY
                .with(Tested.FREE_CHLORINE, two)
                .with(Tested.COMBINED_CHLORINE, 0.3)
                .with(Tested.TOTAL_CHLORINE, 2.4));
    assertEquals(0.3, state.tests().combinedChlorineMgL());
  }
}
