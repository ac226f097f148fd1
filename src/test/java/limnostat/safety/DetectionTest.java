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
import org.junit.jupiter.api.Test;

class DetectionTest {
  private final Seen seen = new Seen();
  private Set<Cause> before = Set.of();

  private Set<Cause> detect() {
    before =
        Detection.detect(Seen.LIMITS, seen.observed(), before, 1e6, 1e6, false, RunHealth.START);
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
            Map.entry(s -> s.tankLow = true, Set.of(Cause.TANK_LOW)),
            Map.entry(s -> s.acidTankLow = true, Set.of(Cause.ACID_TANK_LOW)),
            Map.entry(s -> s.ledgerFailing = true, Set.of(Cause.LEDGER_FAILING)),
            Map.entry(s -> s.outputsDriven = false, Set.of(Cause.OUTPUT_NOT_DRIVEN)),
            Map.entry(s -> s.clockTrusted = false, Set.of(Cause.CLOCK_NOT_TRUSTED)),
            Map.entry(s -> s.lost = true, Set.of(Cause.ESTIMATE_LOST)),
            Map.entry(s -> s.longUnsure = true, Set.of(Cause.ESTIMATE_UNSURE)),
            Map.entry(s -> s.outputTooSmall = true, Set.of(Cause.OUTPUT_TOO_SMALL)),
            Map.entry(s -> s.testDue = TestDue.UNCERTAIN, Set.of(Cause.TEST_DUE)),
            Map.entry(s -> s.testDue = TestDue.CONTRADICTED, Set.of(Cause.TEST_DUE)),
            Map.entry(s -> s.testDue = TestDue.STABILISER, Set.of(Cause.TEST_DUE)),
            // The limit of Montana and of Quebec indoors, 0.5 mg/L, is not passed by itself.
            Map.entry(s -> s.combinedChlorineMgL = 0.5, Set.of()),
            Map.entry(s -> s.combinedChlorineMgL = 0.51, Set.of(Cause.COMBINED_CHLORINE_HIGH)),
            Map.entry(s -> s.doubtedMgL = 4.9, Set.of()),
            Map.entry(s -> s.doubtedMgL = 5, Set.of(Cause.FREE_CHLORINE_HIGH)),
            Map.entry(s -> s.cellA = OptionalDouble.of(1), Set.of(Cause.CELL_CURRENT_UNEXPECTED)),
            Map.entry(s -> s.cellA = OptionalDouble.of(0.1), Set.of()));
    conditions.forEach(
        (condition, causes) -> {
          Seen changed = new Seen();
          condition.accept(changed);
          assertEquals(
              causes,
              Detection.detect(
                  Seen.LIMITS, changed.observed(), Set.of(), 1e6, 1e6, false, RunHealth.START));
        });
  }

  @Test
  void noFlowInThePumpsRestIsNoAlarm() {
    seen.flow = false;
    seen.pumpWanted = false;
    assertEquals(Set.of(Cause.NO_FLOW), detect());
  }

  @Test
  void acidCausesNeedAnAcidFeeder() {
    seen.acidDose = Optional.empty();
    seen.acidTankLow = true;
    assertEquals(
        Set.of(),
        Detection.detect(Seen.LIMITS, seen.observed(), Set.of(), 0, 0, false, RunHealth.START));
  }

  @Test
  void separationHoldsEachForTheOther() {
    assertEquals(
        Set.of(Cause.CHLORINE_RECENT),
        Detection.detect(
            Seen.LIMITS, seen.observed(), Set.of(), 299.9, 300, false, RunHealth.START));
    assertEquals(
        Set.of(Cause.ACID_RECENT),
        Detection.detect(Seen.LIMITS, seen.observed(), Set.of(), 300, 0, false, RunHealth.START));
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

  @Test
  void anEstimateThatIsNoNumberIsHigh() {
    seen.freeChlorineMgL = Double.NaN;
    assertEquals(EnumSet.of(Cause.FREE_CHLORINE_HIGH), detect());
  }
}
