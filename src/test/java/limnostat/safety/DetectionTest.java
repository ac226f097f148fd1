package limnostat.safety;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumSet;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.function.Consumer;
import java.util.function.DoubleConsumer;
import limnostat.estimate.TestDue;
import limnostat.measure.Measurement;
import limnostat.measure.Status;
import limnostat.measure.Upkeep;
import org.junit.jupiter.api.Test;

class DetectionTest {
  private static final BlindFeed SEEN = new BlindFeed(false, 0);

  private final Seen seen = new Seen();
  private Set<Cause> before = Set.of();

  private Set<Cause> detect() {
    before =
        Detection.detect(
            Seen.LIMITS, seen.observed(), before, before, 1e6, 1e6, SEEN, RunHealth.START);
    return before;
  }

  @Test
  void allWellIsNoCause() {
    assertEquals(Set.of(), detect());
  }

  /** Each condition alone brings exactly its causes. */
  @Test
  void eachConditionBringsItsCause() {
    Map<Consumer<Seen>, Set<Cause>> conditions =
        Map.ofEntries(
            Map.entry(s -> s.interrupted = true, Set.of(Cause.INTERRUPTED)),
            Map.entry(s -> s.off = true, Set.of(Cause.MODE_OFF)),
            Map.entry(s -> s.flow = false, Set.of(Cause.NO_FLOW, Cause.FLOW_MISSING)),
            Map.entry(s -> s.flowS = 59, Set.of(Cause.FLOW_NOT_PROVEN)),
            Map.entry(s -> s.poolWater = false, Set.of(Cause.STANDING_WATER)),
            Map.entry(s -> s.pumpOn = Optional.of(false), Set.of(Cause.PUMP_OFF)),
            Map.entry(s -> s.orpMv = Seen.failed(), Set.of(Cause.ORP_FAILURE)),
            Map.entry(s -> s.ph = Seen.failed(), Set.of(Cause.PH_FAILURE)),
            Map.entry(s -> s.waterC = Seen.failed(), Set.of(Cause.WATER_FAILURE)),
            Map.entry(s -> s.orpMv = Seen.standing(), Set.of()),
            Map.entry(s -> s.orpMv = Seen.held(700), Set.of()),
            Map.entry(s -> s.orpMv = Seen.held(800), Set.of(Cause.ORP_HIGH)),
            Map.entry(
                s -> s.chlorineDose = new Observed.Dose(true, false, true),
                Set.of(Cause.CHLORINE_HOUR_CAP)),
            Map.entry(
                s -> s.chlorineDose = new Observed.Dose(false, true, true),
                Set.of(Cause.CHLORINE_DAY_CAP)),
            Map.entry(
                s -> s.chlorineDose = new Observed.Dose(false, false, false),
                Set.of(Cause.CHLORINE_NOT_BOOKED)),
            Map.entry(
                s -> s.acidDose = Optional.of(new Observed.Dose(true, false, true)),
                Set.of(Cause.ACID_HOUR_CAP)),
            Map.entry(
                s -> s.acidDose = Optional.of(new Observed.Dose(false, true, true)),
                Set.of(Cause.ACID_DAY_CAP)),
            Map.entry(
                s -> s.acidDose = Optional.of(new Observed.Dose(false, false, false)),
                Set.of(Cause.ACID_NOT_BOOKED)),
            Map.entry(
                s -> s.upkeep = new Upkeep(true, false, Status.GOOD, Status.GOOD, false),
                Set.of(Cause.CALIBRATION_DUE)),
            Map.entry(
                s -> s.upkeep = new Upkeep(false, true, Status.GOOD, Status.GOOD, false),
                Set.of(Cause.CALIBRATION_DUE)),
            Map.entry(
                s ->
                    s.upkeep =
                        new Upkeep(false, false, Status.MAINTENANCE_REQUIRED, Status.GOOD, false),
                Set.of(Cause.PROBE_WORN)),
            Map.entry(
                s ->
                    s.upkeep =
                        new Upkeep(false, false, Status.GOOD, Status.OUT_OF_SPECIFICATION, false),
                Set.of(Cause.PROBE_WORN)),
            Map.entry(
                s -> s.upkeep = new Upkeep(false, false, Status.GOOD, Status.GOOD, true),
                Set.of(Cause.PH_DISAGREES)),
            Map.entry(
                s ->
                    s.upkeep =
                        new Upkeep(false, false, Status.GOOD, Status.GOOD, false, true, false),
                Set.of(Cause.WATER_DISAGREES)),
            Map.entry(
                s ->
                    s.upkeep =
                        new Upkeep(false, false, Status.GOOD, Status.GOOD, false, false, true),
                Set.of(Cause.PH_UNEXPLAINED)),
            Map.entry(s -> s.pumpRests = true, Set.of(Cause.FLOW_STUCK)),
            Map.entry(s -> s.tankLow = true, Set.of(Cause.TANK_LOW)),
            Map.entry(s -> s.acidTankLow = true, Set.of(Cause.ACID_TANK_LOW)),
            Map.entry(s -> s.ledgerFailing = true, Set.of(Cause.LEDGER_FAILING)),
            Map.entry(s -> s.outputsDriven = false, Set.of(Cause.OUTPUT_NOT_DRIVEN)),
            Map.entry(s -> s.clockTrusted = false, Set.of(Cause.CLOCK_NOT_TRUSTED)),
            Map.entry(s -> s.lost = true, Set.of(Cause.ESTIMATE_LOST)),
            Map.entry(s -> s.longUnsure = true, Set.of(Cause.ESTIMATE_UNSURE)),
            Map.entry(s -> s.longGone = true, Set.of(Cause.CHLORINE_DOUBTFUL)),
            Map.entry(s -> s.longStarved = true, Set.of(Cause.STARVED_BY_ORP)),
            Map.entry(s -> s.testedMgL = 0.5, Set.of()),
            Map.entry(s -> s.testedMgL = 0.49, Set.of(Cause.CHLORINE_USED_UP)),
            Map.entry(s -> s.testedMgL = 0, Set.of(Cause.CHLORINE_USED_UP)),
            Map.entry(s -> s.outputTooSmall = true, Set.of(Cause.OUTPUT_TOO_SMALL)),
            Map.entry(s -> s.testDue = TestDue.UNCERTAIN, Set.of(Cause.TEST_DUE)),
            Map.entry(s -> s.testDue = TestDue.CONTRADICTED, Set.of(Cause.TEST_DUE)),
            Map.entry(s -> s.testDue = TestDue.STABILISER, Set.of(Cause.TEST_DUE)),
            // The limit of Montana and of Quebec indoors, 0.5 mg/L, is not passed by itself.
            Map.entry(s -> s.combinedChlorineMgL = 0.5, Set.of()),
            Map.entry(s -> s.combinedChlorineMgL = 0.51, Set.of(Cause.COMBINED_CHLORINE_HIGH)),
            Map.entry(s -> s.doubtedMgL = 4.9, Set.of()),
            Map.entry(s -> s.doubtedMgL = 5, Set.of(Cause.FREE_CHLORINE_HIGH)),
            Map.entry(s -> s.pumpWanted = false, Set.of(Cause.FLOW_UNASKED)),
            Map.entry(s -> s.coverClosed = true, Set.of(Cause.COVER_CLOSED)),
            Map.entry(s -> s.functionCheck = true, Set.of(Cause.FUNCTION_CHECK)),
            Map.entry(s -> s.configurationChanged = true, Set.of(Cause.CONFIGURATION_CHANGED)),
            Map.entry(s -> s.testAgeS = 14 * 86_400.0, Set.of()),
            Map.entry(s -> s.testAgeS = 14 * 86_400.0 + 1, Set.of(Cause.TEST_OVERDUE)),
            Map.entry(
                s -> s.chlorineRun = new Observed.Run(true, false),
                Set.of(Cause.CHLORINE_LONGEST_RUN)),
            Map.entry(
                s -> s.acidRun = new Observed.Run(true, false), Set.of(Cause.ACID_LONGEST_RUN)),
            Map.entry(s -> s.cellA = OptionalDouble.of(1), Set.of(Cause.CELL_CURRENT_UNEXPECTED)),
            Map.entry(s -> s.cellA = OptionalDouble.of(0.1), Set.of()));
    conditions.forEach(
        (condition, causes) -> {
          Seen changed = new Seen();
          condition.accept(changed);
          assertEquals(
              causes,
              Detection.detect(
                  Seen.LIMITS,
                  changed.observed(),
                  Set.of(),
                  Set.of(),
                  1e6,
                  1e6,
                  SEEN,
                  RunHealth.START));
        });
  }

  @Test
  void noFlowInThePumpsRestIsNoAlarm() {
    seen.flow = false;
    seen.pumpWanted = false;
    assertEquals(Set.of(Cause.NO_FLOW), detect());
  }

  @Test
  void flowByThePumpsOwnContactIsAsked() {
    seen.pumpWanted = false;
    seen.pumpOn = Optional.of(true);
    assertEquals(Set.of(), detect());
    seen.pumpOn = Optional.of(false);
    assertEquals(Set.of(Cause.FLOW_UNASKED, Cause.PUMP_OFF), detect());
  }

  /** Whoever has the plant in hand knows what the water does; a cell that sticks is told. */
  @Test
  void inAFunctionCheckFlowIsNoAlarmAndCurrentIs() {
    seen.functionCheck = true;
    seen.flow = false;
    seen.cellA = OptionalDouble.of(5);
    assertEquals(
        Set.of(Cause.FUNCTION_CHECK, Cause.NO_FLOW, Cause.CELL_CURRENT_UNEXPECTED), detect());
    seen.flow = true;
    seen.pumpWanted = false;
    seen.cellA = OptionalDouble.empty();
    assertEquals(Set.of(Cause.FUNCTION_CHECK), detect());
  }

  /** One thing is said once: what is only uncertain goes into what is overdue. */
  @Test
  void aTestThatIsOverdueIsNotDueAsWell() {
    seen.testAgeS = 15 * 86_400;
    seen.testDue = TestDue.UNCERTAIN;
    assertEquals(Set.of(Cause.TEST_OVERDUE), detect());
    seen.testDue = TestDue.STABILISER;
    assertEquals(Set.of(Cause.TEST_OVERDUE, Cause.TEST_DUE), detect());
  }

  @Test
  void theLongestRunIsOverOnceTheOutputHasRested() {
    seen.chlorineRun = new Observed.Run(true, false);
    assertEquals(Set.of(Cause.CHLORINE_LONGEST_RUN), detect());
    seen.chlorineRun = new Observed.Run(false, false);
    assertEquals(Set.of(Cause.CHLORINE_LONGEST_RUN), detect());
    seen.chlorineRun = new Observed.Run(false, true);
    assertEquals(Set.of(), detect());
    seen.chlorineRun = new Observed.Run(false, false);
    assertEquals(Set.of(), detect(), "a pause is no rest");
  }

  private static Set<Cause> detect(BlindFeed blind) {
    return Detection.detect(
        Seen.LIMITS, new Seen().observed(), Set.of(), Set.of(), 1e6, 1e6, blind, RunHealth.START);
  }

  /** The budget is 5 mg/L here: half of it is low, and with a twentieth left it is spent. */
  @Test
  void theBlindBudgetHasThreeSteps() {
    Set<Cause> blind = Set.of(Cause.FEEDING_BLIND);
    Set<Cause> low = Set.of(Cause.FEEDING_BLIND, Cause.BLIND_FEED_LOW);
    Set<Cause> spent = Set.of(Cause.FEEDING_BLIND, Cause.BLIND_FEED_LOW, Cause.BLIND_FEED_SPENT);
    assertEquals(blind, detect(new BlindFeed(true, 0)));
    assertEquals(blind, detect(new BlindFeed(true, 2.49)));
    assertEquals(low, detect(new BlindFeed(true, 2.5)));
    assertEquals(low, detect(new BlindFeed(true, 4.74)));
    assertEquals(spent, detect(new BlindFeed(true, 4.76)));
    assertEquals(spent, detect(new BlindFeed(true, Double.POSITIVE_INFINITY)));
    assertEquals(Set.of(), detect(new BlindFeed(false, 4.9)), "what measures is back");
    assertEquals(Set.of(), detect(BlindFeed.UNCONFIRMED), "nobody has looked yet");
  }

  private Set<Cause> detectByCell(double cellA, double output) {
    SafetyLimits l = Seen.LIMITS;
    SafetyLimits limits =
        new SafetyLimits(
            l.orpHighMv(),
            l.freeChlorineHighMgL(),
            l.superchlorinationMaxMgL(),
            l.phDosingMin(),
            l.phDosingMax(),
            l.waterMinC(),
            l.waterMaxC(),
            l.flowProvingS(),
            l.separationS(),
            l.blindFeedMgL(),
            new ProcessLimits(4, OptionalDouble.of(9), OptionalDouble.of(6), 14 * 86_400),
            RunLimits.USUAL);
    seen.cellA = OptionalDouble.of(cellA);
    seen.chlorine = output;
    before =
        Detection.detect(limits, seen.observed(), before, before, 1e6, 1e6, SEEN, RunHealth.START);
    return before;
  }

  /** 6 A are told: low below 4.2 A at 25 °C, until 4.8 A; 2 % less a °C below it. */
  @Test
  void cellCurrentIsJudgedByWhatIsExpected() {
    assertEquals(Set.of(), detectByCell(4.21, 1));
    assertEquals(Set.of(Cause.CELL_CURRENT_LOW), detectByCell(4.19, 1));
    assertEquals(Set.of(Cause.CELL_CURRENT_LOW), detectByCell(0, 0), "off tells nothing");
    assertEquals(Set.of(Cause.CELL_CURRENT_LOW), detectByCell(4.79, 1));
    assertEquals(Set.of(), detectByCell(4.81, 1));
    seen.waterC = Seen.value(15);
    assertEquals(Set.of(), detectByCell(3.37, 1)); // 0.7 × 6 × 0.8 = 3.36
    assertEquals(Set.of(Cause.CELL_CURRENT_LOW), detectByCell(3.35, 1));
    seen.waterC = Seen.value(35); // warmer, a supply holds the current
    assertEquals(Set.of(), detectByCell(4.81, 1));
    assertEquals(Set.of(), detectByCell(2.2, 0.5), "half of it at half duty");
    assertEquals(Set.of(Cause.CELL_CURRENT_LOW), detectByCell(2.0, 0.5));
    assertEquals(Set.of(Cause.CELL_CURRENT_LOW, Cause.CELL_CURRENT_MISSING), detectByCell(0.1, 1));
  }

  @Test
  void cellCurrentAboveItsLimitAndUnreadStays() {
    assertEquals(Set.of(), detectByCell(9, 1));
    assertEquals(Set.of(Cause.CELL_OVER_CURRENT), detectByCell(9.1, 1));
    assertEquals(Set.of(Cause.CELL_OVER_CURRENT), detectByCell(Double.NaN, 1));
    assertEquals(Set.of(), detectByCell(8, 1));
    assertEquals(Set.of(), detectByCell(Double.NaN, 1));
  }

  @Test
  void acidCausesNeedAnAcidFeeder() {
    seen.acidDose = Optional.empty();
    seen.acidTankLow = true;
    assertEquals(
        Set.of(),
        Detection.detect(
            Seen.LIMITS, seen.observed(), Set.of(), Set.of(), 0, 0, SEEN, RunHealth.START));
  }

  @Test
  void separationHoldsEachForTheOther() {
    assertEquals(
        Set.of(Cause.CHLORINE_RECENT),
        Detection.detect(
            Seen.LIMITS, seen.observed(), Set.of(), Set.of(), 299.9, 300, SEEN, RunHealth.START));
    assertEquals(
        Set.of(Cause.ACID_RECENT),
        Detection.detect(
            Seen.LIMITS, seen.observed(), Set.of(), Set.of(), 300, 0, SEEN, RunHealth.START));
  }

  @Test
  void cellCurrentIsJudgedByWhatTheOutputDid() {
    seen.chlorine = 1;
    seen.cellA = OptionalDouble.of(0.3);
    assertEquals(Set.of(Cause.CELL_CURRENT_MISSING), detect());
    seen.cellA = OptionalDouble.of(5);
    assertEquals(Set.of(), detect());
    seen.chlorine = 0;
    assertEquals(Set.of(Cause.CELL_CURRENT_UNEXPECTED), detect());
  }

  private record Limit(Cause cause, DoubleConsumer set, Consumer<Measurement> replace) {}

  /** Trips at the limit itself, is left only beyond the deadband, and is frozen while blind. */
  private void hysteresis(Limit limit, double at, double deadband) {
    double out = Math.signum(deadband) * 1e-9;
    limit.set.accept(at - out);
    assertFalse(detect().contains(limit.cause), "short of the limit");
    limit.replace.accept(Seen.failed());
    assertFalse(detect().contains(limit.cause), "unchanged while blind");
    limit.set.accept(at);
    assertTrue(detect().contains(limit.cause), "at the limit");
    limit.set.accept(at - deadband + out);
    assertTrue(detect().contains(limit.cause), "within the deadband");
    limit.replace.accept(Seen.failed());
    assertTrue(detect().contains(limit.cause), "a failed probe does not clear it");
    limit.replace.accept(Seen.standing());
    assertTrue(detect().contains(limit.cause), "nor does standing water");
    limit.set.accept(at - deadband - out);
    assertFalse(detect().contains(limit.cause), "beyond the deadband");
    limit.set.accept(at - deadband + out);
    assertFalse(detect().contains(limit.cause), "and back within it");
  }

  @Test
  void orpHigh() {
    hysteresis(
        new Limit(Cause.ORP_HIGH, v -> seen.orpMv = Seen.value(v), m -> seen.orpMv = m), 800, 10);
  }

  @Test
  void phHighAndLow() {
    hysteresis(new Limit(Cause.PH_HIGH, v -> seen.ph = Seen.value(v), m -> seen.ph = m), 8.0, 0.05);
    hysteresis(new Limit(Cause.PH_LOW, v -> seen.ph = Seen.value(v), m -> seen.ph = m), 6.8, -0.05);
  }

  @Test
  void waterHotAndCold() {
    hysteresis(
        new Limit(Cause.WATER_HOT, v -> seen.waterC = Seen.value(v), m -> seen.waterC = m),
        40,
        0.5);
    hysteresis(
        new Limit(Cause.WATER_COLD, v -> seen.waterC = Seen.value(v), m -> seen.waterC = m),
        10,
        -0.5);
  }

  /** 100 mg/L, Montana (checked); 90 mg/L, MAHC (from memory). */
  @Test
  void stabiliserHigh() {
    hysteresis(
        new Limit(
            Cause.STABILISER_HIGH,
            v -> seen.stabiliser = new Observed.Stabiliser(v, 0, 3),
            m -> {}),
        100,
        10);
  }

  /** A target set to what is asked for is enough, at once. */
  @Test
  void targetLowForStabiliser() {
    seen.stabiliser = new Observed.Stabiliser(60, 3.01, 3);
    assertEquals(EnumSet.of(Cause.TARGET_LOW_FOR_STABILISER), detect());
    seen.stabiliser = new Observed.Stabiliser(60, 3.01, 3.01);
    assertEquals(Set.of(), detect());
  }

  @Test
  void freeChlorineHighHasAHigherLimitInASuperchlorination() {
    seen.freeChlorineMgL = 5;
    assertEquals(EnumSet.of(Cause.FREE_CHLORINE_HIGH), detect());
    seen.freeChlorineMgL = 4.71;
    assertEquals(EnumSet.of(Cause.FREE_CHLORINE_HIGH), detect());
    seen.freeChlorineMgL = 4.69;
    assertEquals(Set.of(), detect());
    seen.superchlorinating = true;
    seen.freeChlorineMgL = 9.99;
    assertEquals(Set.of(), detect());
    seen.freeChlorineMgL = 10;
    assertEquals(EnumSet.of(Cause.FREE_CHLORINE_HIGH), detect());
  }

  /** S9: ORP far below its setpoint says that it is not so; a limit of ORP itself stays one. */
  @Test
  void anEstimateThatContradictsALowOrpIsNoReasonToHold() {
    seen.freeChlorineMgL = 6;
    seen.orpMv = Seen.value(641);
    assertEquals(Set.of(Cause.FREE_CHLORINE_HIGH), detect(), "59 mV below");
    seen.orpMv = Seen.value(639);
    assertEquals(Set.of(), detect(), "61 mV below");
    seen.orpMv = Seen.held(600);
    assertEquals(Set.of(Cause.FREE_CHLORINE_HIGH), detect(), "what is held over says nothing");
    seen.orpMv = Seen.failed();
    assertEquals(Set.of(Cause.FREE_CHLORINE_HIGH, Cause.ORP_FAILURE), detect());
    seen.orpMv = Seen.value(800);
    assertEquals(Set.of(Cause.FREE_CHLORINE_HIGH, Cause.ORP_HIGH), detect());
  }

  /** S9: free chlorine cannot come from nowhere, so ORP alone does not make it high. */
  @Test
  void anEstimateThatDosesAndTestsRuleOutIsNoReasonToHold() {
    seen.freeChlorineMgL = 6;
    seen.balanceMgL = 3;
    assertEquals(Set.of(), detect());
    seen.balanceMgL = 5;
    assertEquals(Set.of(Cause.FREE_CHLORINE_HIGH), detect());
  }

  /** S9: a person found next to none of late. */
  @Test
  void anEstimateThatContradictsALowTestIsNoReasonToHold() {
    seen.freeChlorineMgL = 6;
    seen.usedUpTests = 1;
    assertEquals(Set.of(), detect());
    seen.usedUpTests = 0;
    assertEquals(Set.of(Cause.FREE_CHLORINE_HIGH), detect());
  }

  /** Six, give or take three: as well within the limit. */
  @Test
  void anEstimateThatIsHardlyKnownIsNoReasonToHold() {
    seen.freeChlorineMgL = 6;
    seen.freeChlorineSdMgL = 3;
    assertEquals(Set.of(), detect());
    seen.freeChlorineSdMgL = 2;
    assertEquals(Set.of(Cause.FREE_CHLORINE_HIGH), detect());
  }

  /** What a person has tested holds, whatever anything else says. */
  @Test
  void aDoubtedTestAtTheLimitHoldsWhateverTheEstimateIs() {
    seen.doubtedMgL = 5;
    seen.freeChlorineMgL = 1;
    seen.freeChlorineSdMgL = 3;
    seen.orpMv = Seen.value(500);
    assertEquals(Set.of(Cause.FREE_CHLORINE_HIGH), detect());
  }

  @Test
  void anEstimateThatIsNoNumberIsHigh() {
    seen.freeChlorineMgL = Double.NaN;
    assertEquals(EnumSet.of(Cause.FREE_CHLORINE_HIGH), detect());
  }
}
