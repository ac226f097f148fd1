package limnostat.scan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.List;
import java.util.Map;
import java.util.Set;
import limnostat.account.DoseCaps;
import limnostat.alarm.AlarmState;
import limnostat.measure.Role;
import limnostat.measure.Status;
import limnostat.safety.Cause;
import limnostat.scan.Situation.Times;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/** What a person sees of the causes of process and outputs, in whole scans. */
class ProcessCauseTest {
  /** 2.2 mg/L a day at 0.9, with caps that are far off. */
  private static final DoseCaps LONG = new DoseCaps(5, 1000, 5000, 1);

  private final Situation s = Situation.chlorineFeeding(Times.USUAL, LONG);

  private boolean active(Cause cause) {
    return s.out.permission().active().contains(cause);
  }

  private AlarmState alarm(Cause cause) {
    return s.out.state().alarms().containsKey(cause)
        ? s.out.state().alarms().get(cause).state()
        : AlarmState.NORMAL;
  }

  private String detail(Cause cause) {
    return s.out.details().of(cause).orElseThrow();
  }

  private List<String> refusals() {
    return s.out.events().stream()
        .filter(ScanEvent.Refused.class::isInstance)
        .map(e -> ((ScanEvent.Refused) e).reason())
        .toList();
  }

  /** Flat but for noise: it trips before 5 mg/L are fed, stays, and takes as much again. */
  @Tag("slow")
  @Test
  void noResponseIsLatchedToldAndReleasedByAPersonOnly() throws IOException {
    double beganG = s.out.state().chlorine().account().given();
    while (!active(Cause.NO_RESPONSE)) {
      s.scan(1);
    }
    double fedMgL = (s.out.state().chlorine().account().given() - beganG) / 50;
    assertTrue(fedMgL > 2.5 && fedMgL < 2.8, "in 30 h: " + fedMgL);
    assertEquals(0, s.out.outputs().chlorine());
    s.scan(7);
    assertEquals(AlarmState.LATCHED_UNACKNOWLEDGED, alarm(Cause.NO_RESPONSE));
    assertTrue(
        detail(Cause.NO_RESPONSE)
            .matches(
                "ORP moved by no more than \\d\\.\\d mV while 2\\.\\d mg/L of chlorine were fed: look"
                    + " at the probe first\\."),
        detail(Cause.NO_RESPONSE));
    s.analog(Role.ORP_MV, 690);
    s.resume(s.saved());
    s.scan(3000);
    assertTrue(active(Cause.NO_RESPONSE), "neither a restart nor a better ORP releases it");
    s.commands.add(new Command.Reset(Cause.NO_RESPONSE.id()));
    s.scan(100);
    assertFalse(active(Cause.NO_RESPONSE));
    assertTrue(s.out.outputs().chlorine() > 0, () -> "" + s.out);
    s.scan(10_500);
    assertFalse(active(Cause.NO_RESPONSE), "as long again is needed");

    s.scan(700);
    assertTrue(active(Cause.NO_RESPONSE));
  }

  @Test
  void aFunctionCheckHoldsShowsAndIsSilentUntilItsEnd() {
    s.commands.add(new Command.FunctionCheck(1800));
    s.scan(1);
    assertEquals(0, s.out.outputs().chlorine());
    // The probes are in a buffer, one is unplugged, and the filter is open.
    s.ph(4);
    s.missing(Role.ORP_MV);
    s.contact(Role.FLOW, false);
    s.scan(60);
    s.contact(Role.FLOW, true);
    s.scan(60);
    assertEquals(Status.FUNCTION_CHECK, s.out.measured().ph().status());
    assertEquals(Status.FUNCTION_CHECK, s.out.measured().orpMv().status());
    assertEquals(Status.FUNCTION_CHECK, s.out.measured().waterC().status());
    assertEquals(4, s.out.measured().ph().shown().orElseThrow(), 0.1);
    assertEquals(Set.of(), s.out.state().alarms().keySet());
    s.ph(7.4);
    s.analog(Role.ORP_MV, 650);
    s.scan(58);
    assertTrue(active(Cause.FUNCTION_CHECK));
    s.scan(2);
    assertFalse(active(Cause.FUNCTION_CHECK), "it ends by itself");
    assertEquals(0, s.out.outputs().chlorine(), "flow is proved anew");
    s.scan(10);
    assertTrue(s.out.outputs().chlorine() > 0, () -> "" + s.out);
    assertEquals(Set.of(), s.out.state().alarms().keySet());
  }

  @Test
  void aFunctionCheckSurvivesARestartAndEndsInTime() throws IOException {
    s.commands.add(new Command.FunctionCheck(3600));
    s.scan(60);
    s.resume(s.saved());
    s.elapsedS = 1000;
    s.scan(1);
    assertEquals(2010, s.out.state().safety().watched().functionCheckS(), 1e-6);
    s.scan(199);
    assertTrue(active(Cause.FUNCTION_CHECK));
    s.scan(2);
    assertFalse(active(Cause.FUNCTION_CHECK));
  }

  /** Found by {@link HistoriesTest}: the gap before the command was taken off the check. */
  @Test
  void aFunctionCheckThatBeginsAfterAGapHasAllOfItsTime() {
    s.commands.add(new Command.FunctionCheck(600));
    s.elapsedS = 5000;
    s.scan(1);
    assertEquals(600, s.out.state().safety().watched().functionCheckS());
    s.scan(59);
    assertTrue(active(Cause.FUNCTION_CHECK));
    s.scan(1);
    assertFalse(active(Cause.FUNCTION_CHECK));
  }

  @Test
  void aFunctionCheckIsBounded() {
    for (double minutes : new double[] {-1, 0.5, 241, Double.NaN}) {
      s.commands.add(new Command.FunctionCheck(60 * minutes));
      s.scan(1);
      assertTrue(
          refusals().get(0).matches("minutes .* (hard bound = (1|240) min|is not a number)"),
          () -> "" + refusals());
      assertFalse(active(Cause.FUNCTION_CHECK));
    }
    s.commands.add(new Command.FunctionCheck(0));
    s.scan(1);
    assertEquals(List.of("no function check runs"), refusals());
    s.commands.add(new Command.FunctionCheck(240 * 60));
    s.commands.add(new Command.FunctionCheck(0));
    s.scan(1);
    assertFalse(active(Cause.FUNCTION_CHECK));
  }

  /** The limit is what the pool uses without sun, below what is fed by it. */
  @Test
  void underACoverTheLimitIsTheDemandWithoutSun() {
    double open = s.out.demand().fallbackDuty();
    s.contact(Role.COVER_CLOSED, true);
    s.scan(1);
    double covered = s.out.demand().fallbackDuty();
    assertTrue(covered > 0 && covered < open, covered + " of " + open);
    assertEquals(covered, s.out.outputs().chlorine());
    s.missing(Role.COVER_CLOSED);
    s.scan(1000);
    assertTrue(active(Cause.COVER_CLOSED), "for three hours as it was");
    s.scan(100);
    assertFalse(active(Cause.COVER_CLOSED));
    s.contact(Role.COVER_CLOSED, true);
    s.scan(1);
    s.contact(Role.COVER_CLOSED, false);
    s.scan(5);
    assertTrue(active(Cause.COVER_CLOSED), "a cover that moves");
    s.scan(2);
    assertFalse(active(Cause.COVER_CLOSED));
  }

  @Test
  void aChangedConfigurationIsToldWithWhatChanged() {
    s.restart(Map.of("limits.orp_high", "780 mV", "pool.volume", "50 m3"));
    s.scan(10);
    assertFalse(active(Cause.CONFIGURATION_CHANGED), "the first is no change");
    s.restart(Map.of("limits.orp_high", "800 mV", "pool.volume", "50 m3"));
    s.scan(10);
    assertEquals(AlarmState.UNACKNOWLEDGED, alarm(Cause.CONFIGURATION_CHANGED));
    assertEquals("limits.orp_high from 780 mV to 800 mV.", detail(Cause.CONFIGURATION_CHANGED));
    s.commands.add(new Command.Acknowledge(Cause.CONFIGURATION_CHANGED.id()));
    s.swingMv = 20;
    s.scan(24 * 360);
    assertEquals(AlarmState.NORMAL, alarm(Cause.CONFIGURATION_CHANGED));
  }

  @Test
  void aLowCellCurrentIsToldWithWhatIsExpected() {
    s.cellA = 3;
    s.scan(80);
    assertEquals(AlarmState.UNACKNOWLEDGED, alarm(Cause.CELL_CURRENT_LOW));
    assertTrue(
        detail(Cause.CELL_CURRENT_LOW)
            .startsWith(
                "At full duty and 25 °C 6.0 A are expected; salt is taken to be 3400 mg/L,"),
        detail(Cause.CELL_CURRENT_LOW));
  }

  @Tag("slow")
  @Test
  void aTestThatIsOverdueIsToldAndATestEndsIt() {
    s.swingMv = 20;
    s.scan(5 * 24 * 360 + 20);
    assertEquals(AlarmState.UNACKNOWLEDGED, alarm(Cause.TEST_OVERDUE));
    assertEquals(
        "The last test that is believed, or the first scan where there is none, is 5 days ago;"
            + " limits.test_overdue is 5 days.",
        detail(Cause.TEST_OVERDUE));
    assertFalse(active(Cause.TEST_DUE) && s.out.estimate().testDue().key().equals("uncertain"));
  }
}
