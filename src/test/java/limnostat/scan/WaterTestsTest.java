package limnostat.scan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import java.time.ZoneId;
import java.util.Optional;
import java.util.OptionalDouble;
import limnostat.control.Mode;
import limnostat.estimate.TestVerdict;
import limnostat.estimate.Tested;
import limnostat.estimate.WaterTest;
import limnostat.measure.Role;
import limnostat.safety.Cause;
import limnostat.scan.Situation.Times;
import org.junit.jupiter.api.Test;

/** A person's tests in whole scans: what is answered, what is told, what is held for them. */
class WaterTestsTest {
  private static final OptionalDouble NONE = OptionalDouble.empty();

  private final Situation s =
      Situation.chlorineFeeding(Times.USUAL, TestSettings.pool().chlorine().caps());

  private ScanEvent enter(WaterTest test) {
    s.commands.add(new Command.Test(test));
    s.scan(1);
    return s.out.events().get(0);
  }

  private Optional<String> remark(double freeChlorineMgL) {
    WaterTest test = WaterTest.EMPTY.with(Tested.FREE_CHLORINE, freeChlorineMgL);
    return assertInstanceOf(ScanEvent.Accepted.class, enter(test)).remark();
  }

  private static WaterTest combined(double combinedMgL) {
    return WaterTest.EMPTY.with(Tested.COMBINED_CHLORINE, combinedMgL);
  }

  private String detail(Cause cause) {
    return s.out.details().of(cause).orElseThrow();
  }

  @Test
  void aTestThatContradictsIsAcceptedWithARemark() {
    assertEquals(Optional.empty(), remark(3));
    String doubted = remark(9).orElseThrow();
    assertTrue(doubted.contains("far above") && doubted.contains("test again"), doubted);
    String setAside = remark(2.8).orElseThrow();
    assertTrue(setAside.contains("set aside"), setAside);
    assertEquals(Optional.empty(), remark(2.8));
    remark(9);
    s.scan(40);
    String borneOut = remark(9.1).orElseThrow();
    assertTrue(borneOut.contains("bears out"), borneOut);
  }

  /** S12: neither doubted nor asked for again; an alarm of high priority says what it found. */
  @Test
  void aLowTestIsTakenAtOnceAndCalled() {
    remark(3.1);
    assertEquals(Optional.empty(), remark(0.1));
    assertEquals(TestVerdict.BELIEVED, s.out.state().estimate().tests().verdict());
    assertFalse(s.out.permission().active().contains(Cause.TEST_DUE));
    assertTrue(s.out.permission().active().contains(Cause.CHLORINE_USED_UP));
    assertEquals("The last test read 0.1 mg/L, 0 days ago.", detail(Cause.CHLORINE_USED_UP));
    assertTrue(s.out.estimate().freeChlorineMgL() < 0.6, () -> "" + s.out.estimate());
    remark(1.5);
    assertFalse(s.out.permission().active().contains(Cause.CHLORINE_USED_UP));
  }

  /** 17:31 UTC is 19:31 in summer there: the full hour that is next. */
  @Test
  void aReminderSaysAtWhichHourATestTellsMost() {
    double unixS = Instant.parse("2026-07-01T17:31:00Z").getEpochSecond();
    assertEquals(
        "; at about 20:00 a test tells most, as free chlorine is then at its lowest",
        AlarmDetails.bestHour(unixS, ZoneId.of("Europe/Berlin")));
    assertEquals("", AlarmDetails.bestHour(0, ZoneId.of("Europe/Berlin")));
  }

  @Test
  void aTestOfSomethingElseHasNoRemark() {
    remark(3);
    remark(0.5);
    assertEquals(
        Optional.empty(),
        assertInstanceOf(ScanEvent.Accepted.class, enter(combined(0.2))).remark());
  }

  @Test
  void anImpossibleTestIsRefusedAndChangesNothing() {
    ScanState before = s.out.state();
    WaterTest test = WaterTest.EMPTY.with(Tested.FREE_CHLORINE, 3).with(Tested.TOTAL_CHLORINE, 2);
    ScanEvent.Refused refused = assertInstanceOf(ScanEvent.Refused.class, enter(test));
    assertEquals(
        "free_chlorine_mg_l 3.0 is above total_chlorine_mg_l 2.0, of which it is a part; test"
            + " again, with fresh reagents",
        refused.reason());
    assertEquals(before.estimate().tests().verdict(), s.out.state().estimate().tests().verdict());
  }

  /** Limits: 5 mg/L, and 10 while a superchlorination runs. */
  @Test
  void aDoubtedTestAboveTheLimitHoldsChlorineForADayUnlessAnotherIsMade() {
    remark(3);
    remark(9);
    assertTrue(s.out.permission().active().contains(Cause.FREE_CHLORINE_HIGH));
    assertEquals(0, s.out.outputs().chlorine());
    assertEquals(3, s.out.estimate().freeChlorineMgL(), 0.5, "the estimate is not moved");
    assertTrue(detail(Cause.FREE_CHLORINE_HIGH).startsWith("The last test read 9.0 mg/L"));
    s.scan(24 * 360 - 1);
    assertTrue(s.out.permission().active().contains(Cause.FREE_CHLORINE_HIGH));
    s.scan(2);
    assertFalse(s.out.permission().active().contains(Cause.FREE_CHLORINE_HIGH));
    assertTrue(s.out.permission().active().contains(Cause.TEST_DUE), "and is still asked for");
  }

  @Test
  void testDueSaysWhatToTestAndWhy() {
    remark(3);
    remark(9);
    String contradicted = detail(Cause.TEST_DUE);
    assertTrue(
        contradicted.matches(
            "The last test read 9\\.0 mg/L of free chlorine where [23]\\.\\d was expected, and counts in"
                + " part only, until a second bears it out\\. Test free chlorine again, with a fresh"
                + " sample and fresh reagents\\."),
        contradicted);
    remark(3);
    s.missing(Role.ORP_MV);
    for (int day = 0; day < 7 && !s.out.permission().active().contains(Cause.TEST_DUE); day++) {
      s.scan(24 * 360);
    }
    String uncertain = detail(Cause.TEST_DUE);
    assertTrue(uncertain.startsWith("Free chlorine is taken to be "), uncertain);
    assertTrue(uncertain.contains(" days old. Test free chlorine"), uncertain);
  }

  /** Ten times the combined chlorine, as Cl2: common practice. */
  @Test
  void combinedChlorineIsToldWithTheLevelThatItTakes() {
    enter(combined(0.8));
    assertEquals(
        "The last test found 0.8 mg/L. Superchlorinate to 8.0 mg/L (ten times as much, both as"
            + " Cl2: common practice). Nobody bathes until the re-entry hold is over: 6 h later,"
            + " and at 4 mg/L or less.",
        detail(Cause.COMBINED_CHLORINE_HIGH));
    s.scan(10 * 24 * 360);
    assertTrue(
        s.out.permission().active().contains(Cause.COMBINED_CHLORINE_HIGH), "time is no test");
    enter(combined(1.5));
    String limited = detail(Cause.COMBINED_CHLORINE_HIGH);
    assertTrue(limited.contains("to 10.0 mg/L, the most that limits.superchlorination_max allows"));
    assertTrue(limited.contains("15.0"), limited);
    enter(combined(0.5));
    assertFalse(s.out.permission().active().contains(Cause.COMBINED_CHLORINE_HIGH));
  }

  /** What a raise may reach, a person's duty may not. */
  @Test
  void manualEndsTheWiderLimitOfASuperchlorination() {
    s.commands.add(new Command.SetMode(Mode.AUTO, NONE));
    s.commands.add(new Command.Superchlorinate(8, 12 * 3600));
    s.scan(1);
    remark(7);
    assertTrue(s.out.state().control().superchlorination().running());
    assertFalse(s.out.permission().active().contains(Cause.FREE_CHLORINE_HIGH), "below 10 mg/L");
    s.commands.add(new Command.SetMode(Mode.MANUAL, OptionalDouble.of(0.9)));
    s.scan(1);
    assertTrue(s.out.permission().active().contains(Cause.FREE_CHLORINE_HIGH));
    assertEquals(0, s.out.outputs().chlorine());
    assertTrue(s.out.state().control().superchlorination().reentry());
  }
}
