package limnostat.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.OptionalDouble;
import limnostat.measure.Probe.Judged;
import limnostat.measure.Probe.Memory;
import limnostat.measure.Probe.Sample;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class ProbeTest {
  /** Range 0–1000, 5 a second, frozen within 0.5 for 300 s, stale after 60 s; one sample a 10 s. */
  private static final ProbeSettings SETTINGS = new ProbeSettings(0, 1000, 5, 0.5, 300, 60);

  private static final double STEP_S = 10;

  private Memory memory = Memory.BLANK;

  private static Sample of(OptionalDouble value) {
    return new Sample(value, Plausibility.RANGE);
  }

  private Measurement sample(OptionalDouble sample, boolean poolWater) {
    Judged judged = Probe.judge(SETTINGS, memory, of(sample), poolWater, STEP_S);
    memory = judged.memory();
    return judged.measurement();
  }

  private Measurement sample(double value) {
    return sample(OptionalDouble.of(value), true);
  }

  private Measurement missing() {
    return sample(OptionalDouble.empty(), true);
  }

  private static void assertGood(double value, Measurement measurement) {
    assertEquals(new Measurement.Value(value, Status.GOOD, 0, List.of()), measurement);
    assertTrue(measurement.fresh());
  }

  private static void assertFailed(Plausibility test, Measurement measurement) {
    assertEquals(Status.FAILURE, measurement.status());
    assertEquals(List.of(test), measurement.failed());
    assertFalse(measurement.usable());
    assertFalse(measurement.fresh());
  }

  @Test
  void firstSampleMayBeAnythingInRange() {
    assertGood(1000, sample(1000));
  }

  @Test
  void nothingYetIsFailureAtOnceAndNotAnOldValue() {
    Measurement none = missing();
    assertFailed(Plausibility.PRESENT, none);
    assertEquals(OptionalDouble.empty(), none.shown());
  }

  @ParameterizedTest
  @ValueSource(doubles = {Double.NaN, Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY})
  void whatIsNoNumberIsNoSampleAndIsNotShown(double value) {
    Measurement none = sample(value);
    assertFailed(Plausibility.PRESENT, none);
    assertEquals(OptionalDouble.empty(), none.shown());
    memory = Memory.BLANK;
    sample(500);
    Measurement held = sample(value);
    assertEquals(
        new Measurement.Value(
            500, Status.OUT_OF_SPECIFICATION, STEP_S, List.of(Plausibility.PRESENT)),
        held);
  }

  @ParameterizedTest
  @ValueSource(doubles = {0, 1000, -0.0})
  void edgesOfTheRangeAreWithin(double value) {
    assertGood(value, sample(value));
  }

  @Test
  void justOutsideTheRangeIsOutAndStillShown() {
    for (double value : new double[] {Math.nextUp(1000.0), Math.nextDown(0.0), 1e300, -1e300}) {
      Measurement none = sample(value);
      assertFailed(Plausibility.RANGE, none);
      assertEquals(value, none.shown().getAsDouble());
    }
  }

  @Test
  void dropoutIsHeldWithItsAgeThenFails() {
    sample(500);
    for (int i = 1; i <= 6; i++) {
      Measurement held = missing();
      assertEquals(
          new Measurement.Value(
              500, Status.OUT_OF_SPECIFICATION, STEP_S * i, List.of(Plausibility.PRESENT)),
          held);
      assertFalse(held.fresh());
    }
    assertFailed(Plausibility.PRESENT, missing());
    assertEquals(new Fault(true, Plausibility.PRESENT, 0, 500), memory.fault());
    recovers(520);
    assertEquals(STEP_S, ((Measurement.Value) missing()).ageS(), "age begins anew");
  }

  /** Failed for good, so all of the 60 s of stale_after are bad: four times as long. */
  private void recovers(double value) {
    for (int i = 1; i < 24; i++) {
      Measurement steady = sample(value - i % 2);
      assertFailed(Plausibility.STEADY, steady);
      assertEquals(value - i % 2, steady.shown().getAsDouble(), "shown all the same");
    }
    assertGood(value, sample(value));
    assertEquals(Fault.NONE, memory.fault());
    assertEquals(0, memory.badS());
  }

  /** Good for one sample in seven: it was held for ever, and no time of anything was used up. */
  @Test
  void aSignalThatIsGoodNowAndThenFails() {
    sample(500);
    for (int i = 0; i < 1000; i++) {
      Measurement m = i % 7 == 6 ? sample(500 + i % 3) : missing();
      assertTrue(i < 7 || m.status() == Status.FAILURE, "sample " + i);
    }
  }

  /** A fifth is what good time takes back: one bad sample in five is held, one in four is not. */
  @Test
  void badTimeAddsUp() {
    sample(500);
    for (int i = 0; i < 5000; i++) {
      assertTrue((i % 5 == 0 ? missing() : sample(500 + i % 3)).usable(), "sample " + i);
    }
    boolean failed = false;
    for (int i = 0; i < 200; i++) {
      failed |= !(i % 4 == 0 ? missing() : sample(500 + i % 3)).usable();
    }
    assertTrue(failed, memory.toString());
  }

  /** A single miss of the very first sample is not punished with minutes. */
  @Test
  void recoveryTakesAsLongAsTheBadTimeDeserves() {
    missing();
    for (int i = 1; i < 4; i++) {
      assertFailed(Plausibility.STEADY, sample(500 + i));
    }
    assertGood(500, sample(500));
  }

  @Test
  void neitherThePumpsRestNorAnInterruptionMendsAProbe() {
    sample(500);
    for (int i = 0; i < 7; i++) {
      missing();
    }
    Fault fault = memory.fault();
    for (int i = 0; i < 1000; i++) {
      sample(OptionalDouble.of(500), false);
    }
    assertEquals(60, memory.badS());
    assertEquals(fault, memory.fault());
    memory = memory.forgetting();
    recovers(500);
  }

  /** What people are told stays what it was when the probe failed. */
  @Test
  void theFirstFaultIsTheOneThatIsKept() {
    sample(500);
    for (int i = 0; i < 6; i++) {
      sample(2000 + i);
    }
    assertEquals(Fault.NONE, memory.fault(), "held so far");
    sample(2007);
    Fault first = new Fault(true, Plausibility.RANGE, 2007, 500);
    assertEquals(first, memory.fault());
    missing();
    sample(-5);
    assertEquals(first, memory.fault());
  }

  @Test
  void aSampleOutOfRangeIsNamedByItsWiring() {
    for (Plausibility wiring : new Plausibility[] {Plausibility.OPEN, Plausibility.SHORT}) {
      Judged judged =
          Probe.judge(
              SETTINGS, Memory.BLANK, new Sample(OptionalDouble.of(2000), wiring), true, STEP_S);
      assertFailed(wiring, judged.measurement());
      assertEquals(wiring, judged.memory().fault().test());
      Judged within =
          Probe.judge(
              SETTINGS, Memory.BLANK, new Sample(OptionalDouble.of(20), wiring), true, STEP_S);
      assertGood(20, within.measurement());
    }
  }

  /** A shorted glass electrode shows pH 7, in range, and never moves. */
  @Test
  void aFrozenSignalOfAShortCircuitIsNamedSo() {
    Measurement last = sample(7);
    for (int i = 0; i < 40; i++) {
      Judged judged =
          Probe.judge(
              SETTINGS, memory, new Sample(OptionalDouble.of(7), Plausibility.SHORT), true, STEP_S);
      memory = judged.memory();
      last = judged.measurement();
    }
    assertFailed(Plausibility.SHORT, last);
    assertEquals(new Fault(true, Plausibility.SHORT, 7, 7), memory.fault());
  }

  @Test
  void rateEdge() {
    sample(500);
    assertGood(550, sample(550));
    Measurement fast = sample(601);
    assertEquals(Status.OUT_OF_SPECIFICATION, fast.status());
    assertEquals(550, fast.orElse(0), "the spike is not taken");
    assertEquals(List.of(Plausibility.RATE), fast.failed());
  }

  /** 250 mV off at 5 mV/s: believed once 50 s have made it possible, not for ever refused. */
  @Test
  void aRealStepIsBelievedInTheEnd() {
    sample(500);
    for (int i = 1; i < 5; i++) {
      assertFalse(sample(750).fresh(), "after " + 10 * i + " s");
    }
    assertGood(750, sample(750));
  }

  @Test
  void aStepTooLargeForTheHoldFailsInBetweenAndIsBelievedAllTheSame() {
    sample(100);
    for (int i = 1; i <= 6; i++) {
      sample(900);
    }
    assertFailed(Plausibility.RATE, sample(900));
    assertEquals(new Fault(true, Plausibility.RATE, 900, 100), memory.fault());
    for (int i = 8; i < 16; i++) {
      assertFailed(Plausibility.RATE, sample(900));
    }
    recovers(900);
  }

  /** Two samples 0.1 s apart: noise of 49 mV is no rate of 490 mV/s. */
  @Test
  void noiseBetweenTwoCloseSamplesIsNotARate() {
    sample(500);
    Judged judged = Probe.judge(SETTINGS, memory, of(OptionalDouble.of(549)), true, 0.1);
    assertTrue(judged.measurement().fresh());
  }

  private void freeze(double value) {
    sample(value);
    for (int i = 1; i < 30; i++) {
      assertGood(value, sample(value));
    }
    assertFailed(Plausibility.FREEZE, sample(value));
  }

  @Test
  void aFrozenSignalStaysAFailureHoweverLong() {
    freeze(500);
    for (int i = 0; i < 1000; i++) {
      Measurement frozen = sample(500.4);
      assertFailed(Plausibility.FREEZE, frozen);
      assertEquals(500.4, frozen.shown().getAsDouble());
    }
  }

  @Test
  void aFrozenSignalRecoversWhenItMoves() {
    freeze(500);
    assertEquals(new Fault(true, Plausibility.FREEZE, 500, 500), memory.fault());
    recovers(510);
  }

  /** Or a bad contact would turn a frozen value back into a usable one. */
  @Test
  void aDropoutOrASpikeDoesNotReviveAFrozenSignal() {
    freeze(500);
    assertFailed(Plausibility.PRESENT, missing());
    assertFailed(Plausibility.RANGE, sample(2000));
    assertFailed(Plausibility.RATE, sample(900));
    assertFailed(Plausibility.FREEZE, sample(500));
  }

  /** The band lies about where the stillness began, so that slow drift is movement. */
  @Test
  void slowDriftIsNotFrozen() {
    double value = 500;
    for (int i = 0; i < 500; i++) {
      value += 0.02;
      assertTrue(sample(value).fresh(), "step " + i);
    }
  }

  @Test
  void withoutAFreezeTimeAStillSignalIsGood() {
    ProbeSettings settings = new ProbeSettings(0, 45, 0.2, 0, 0, 60);
    for (int i = 0; i < 10_000; i++) {
      Judged judged = Probe.judge(settings, memory, of(OptionalDouble.of(25)), true, STEP_S);
      memory = judged.memory();
      assertTrue(judged.measurement().fresh());
    }
  }

  @Test
  void standingWaterIsFunctionCheckShowsItsSampleAndIsForgotten() {
    sample(100);
    Measurement standing = sample(OptionalDouble.of(900), false);
    assertEquals(
        new Measurement.None(
            Status.FUNCTION_CHECK, List.of(Plausibility.FRESH_WATER), OptionalDouble.of(900)),
        standing);
    assertEquals(
        new Memory(0, Double.POSITIVE_INFINITY, 100, 0, 0, Fault.NONE),
        memory,
        "but its stillness");
    assertGood(950, sample(950));
  }

  /** A pump that rests more often than a frozen signal takes to be noticed must not hide it. */
  @Test
  void stillnessGoesOnAfterStandingWater() {
    boolean frozen = false;
    for (int i = 0; i < 10_000 && !frozen; i++) {
      Measurement m = sample(OptionalDouble.of(500), i % 20 < 15);
      frozen = m.status() == Status.FAILURE;
    }
    assertTrue(frozen, memory.toString());
  }

  @Test
  void afterStandingWaterNoOldValueIsHeld() {
    sample(500);
    sample(OptionalDouble.of(500), false);
    assertFailed(Plausibility.PRESENT, missing());
  }

  /** The pump's rest must not count towards stillness. */
  @Test
  void stillnessInStandingWaterDoesNotCount() {
    for (int i = 0; i < 100; i++) {
      sample(OptionalDouble.of(500), false);
    }
    assertGood(500, sample(500));
    assertGood(500, sample(500));
  }
}
