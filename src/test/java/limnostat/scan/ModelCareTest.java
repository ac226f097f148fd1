package limnostat.scan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.List;
import limnostat.account.DoseCaps;
import limnostat.actuate.Output;
import limnostat.estimate.Tested;
import limnostat.estimate.WaterTest;
import limnostat.measure.Plausibility;
import limnostat.measure.Role;
import limnostat.measure.Status;
import limnostat.safety.Cause;
import limnostat.safety.Effect;
import limnostat.scan.Situation.Times;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/** Probes that move as the water cannot, in whole scans: an hour is 360 of them. */
class ModelCareTest {
  private static final int HOUR = 360;

  private final Situation s =
      Situation.chlorineFeeding(Times.USUAL, new DoseCaps(2, 1000, 5000, 1));

  private boolean active(Cause cause) {
    return s.out.permission().active().contains(cause);
  }

  private void warmed() {
    s.swingMv = 20;
    s.scan(HOUR + 60);
    s.analog(Role.WATER_C, 33);
    s.scan(HOUR / 2 + 10);
    assertTrue(active(Cause.WATER_DISAGREES));
  }

  @Test
  void aDoubtedTemperatureIsShownAndNotGoneBy() {
    s.swingMv = 20;
    s.scan(HOUR + 60);
    s.analog(Role.WATER_C, 33);
    s.scan(HOUR / 4);
    assertFalse(active(Cause.WATER_DISAGREES), "a quarter of an hour is a slug in the pipe");
    assertEquals(33, s.out.state().estimate().waterC(), 0.2);
    s.scan(HOUR / 2);
    assertTrue(active(Cause.WATER_DISAGREES));
    assertEquals(Effect.LIMIT, s.out.permission().chlorine());
    assertEquals(Status.OUT_OF_SPECIFICATION, s.out.measured().waterC().status());
    assertEquals(List.of(Plausibility.MODEL), s.out.measured().waterC().failed());
    assertEquals(33, s.out.measured().waterC().shown().orElseThrow(), 0.2);
    assertEquals(25, s.out.state().estimate().waterC(), 0, "the stand-in");
    assertEquals(5, s.out.measured().waterSdC(), 0);
    assertEquals(
        "The water temperature has moved further up than the water can have, by what was believed"
            + " before.",
        s.out.details().of(Cause.WATER_DISAGREES).orElseThrow());
  }

  /** A doubt takes no hold away. */
  @Test
  void tooHotIsTooHotAllTheSame() {
    warmed();
    s.analog(Role.WATER_C, 42);
    s.scan(60);
    assertTrue(active(Cause.WATER_HOT));
    assertTrue(s.out.permission().held(Output.CHLORINE));
  }

  /** What is fed by a thermometer that is doubted counts as of one that has failed. */
  @Test
  void whatIsFedMeanwhileIsFedBlind() {
    warmed();
    double before = s.out.state().safety().blind().fedMgL();
    s.scan(HOUR);
    assertTrue(active(Cause.FEEDING_BLIND));
    double fed = s.out.state().safety().blind().fedMgL() - before;
    double duty = Math.min(s.out.demand().chlorineDuty(), s.out.demand().fallbackDuty());
    assertEquals(duty * 2 / 50, fed, 0.002, "an hour of 2 g/h in 50 m3");
  }

  @Test
  void itStandsWhileThePumpRestsAndOverARestart() throws IOException {
    warmed();
    s.contact(Role.FLOW, false);
    s.scan(HOUR);
    assertTrue(active(Cause.WATER_DISAGREES));
    s.resume(s.saved());
    s.scan(2);
    assertTrue(active(Cause.WATER_DISAGREES));
    assertEquals(25, s.out.state().estimate().waterC(), 0);
  }

  @Test
  void aFunctionCheckEndsIt() {
    warmed();
    s.commands.add(new Command.FunctionCheck(1800));
    s.scan(2);
    assertFalse(active(Cause.WATER_DISAGREES));
    s.commands.add(new Command.FunctionCheck(0));
    s.scan(3 * HOUR);
    assertFalse(active(Cause.WATER_DISAGREES));
    assertEquals(33, s.out.state().estimate().waterC(), 0.2);
  }

  @Test
  void halfADayOfPossibleMovesEndsIt() {
    warmed();
    s.scan(11 * HOUR);
    assertTrue(active(Cause.WATER_DISAGREES));
    s.scan(HOUR + 10);
    assertFalse(active(Cause.WATER_DISAGREES));
  }

  /** What an interruption of a minute and more hides is not known. */
  @Test
  void anInterruptionBeginsAnew() {
    s.swingMv = 20;
    s.scan(HOUR + 60);
    s.elapsedS = 61;
    s.analog(Role.WATER_C, 33);
    s.scan(3 * HOUR);
    assertFalse(active(Cause.WATER_DISAGREES));
  }

  private void tested(double ph) {
    s.commands.add(new Command.Test(WaterTest.EMPTY.with(Tested.PH, ph)));
  }

  private void phJumps(double to) {
    s.swingMv = 20;
    s.scan(HOUR + 60);
    s.ph(to);
    s.scan(HOUR / 2 + 10);
    assertTrue(active(Cause.PH_UNEXPLAINED));
    assertTrue(s.out.permission().held(Output.ACID));
    assertFalse(s.out.permission().held(Output.CHLORINE));
    assertEquals(Status.MAINTENANCE_REQUIRED, s.out.measured().ph().status());
    assertTrue(s.out.measured().ph().fresh(), "it is gone by all the same");
  }

  @Tag("slow")
  @Test
  void noTimeMakesAPhThatJumpedUpBelievable() {
    phJumps(7.9);
    assertEquals(
        "pH has moved further up than the water can have, by what was believed before.",
        s.out.details().of(Cause.PH_UNEXPLAINED).orElseThrow());
    s.scan(48 * HOUR);
    assertTrue(active(Cause.PH_UNEXPLAINED));
    tested(7.4);
    s.scan(2);
    assertTrue(active(Cause.PH_UNEXPLAINED), "a test that contradicts");
    tested(7.8);
    s.scan(2);
    assertFalse(active(Cause.PH_UNEXPLAINED));
    s.scan(3 * HOUR);
    assertFalse(active(Cause.PH_UNEXPLAINED));
  }

  @Test
  void aDayMakesAPhThatFellBelievable() {
    phJumps(6.95);
    assertTrue(s.out.details().of(Cause.PH_UNEXPLAINED).orElseThrow().contains(" down than "));
    s.scan(23 * HOUR);
    assertTrue(active(Cause.PH_UNEXPLAINED));
    s.scan(HOUR + 10);
    assertFalse(active(Cause.PH_UNEXPLAINED));
  }

  @Test
  void aPhThatIsBackIsBelieved() {
    phJumps(7.9);
    s.ph(7.4);
    s.scan(HOUR / 2 + 10);
    assertFalse(active(Cause.PH_UNEXPLAINED));
  }
}
