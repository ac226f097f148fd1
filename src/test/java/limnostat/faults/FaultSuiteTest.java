package limnostat.faults;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import limnostat.safety.Cause;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

@Tag("slow")
class FaultSuiteTest {
  private static final FaultReport REPORT = FaultSuite.run();

  /** A row of the matrix that nobody can bring about has to say why. */
  @Test
  void everyCauseIsInjectedOrHasAReason() {
    Set<Cause> injected = Injections.ALL.stream().map(Injection::cause).collect(Collectors.toSet());
    assertEquals(Injections.ALL.size(), injected.size(), "one fault a cause");
    Set<Cause> forgotten = EnumSet.allOf(Cause.class);
    forgotten.removeAll(injected);
    forgotten.removeAll(Injections.NOT_INJECTED.keySet());
    assertEquals(Set.of(), forgotten, "add a fault to Injections.ALL, or a reason to NOT_INJECTED");
    injected.retainAll(Injections.NOT_INJECTED.keySet());
    assertEquals(Set.of(), injected, "injected, so it needs no reason");
  }

  @Test
  void everyFaultIsAnsweredInTimeAndNamedAndPassesNoCap() {
    List<FaultReport.Row> bad = REPORT.faults().stream().filter(row -> !row.ok()).toList();
    assertEquals(List.of(), bad);
    assertTrue(REPORT.ok());
  }

  /** S1: flow that is lost is off with the very next scan. */
  @Test
  void flowThatIsLostIsOffWithinOneScan() {
    FaultReport.Row row = row("no_flow");
    assertEquals(FaultBench.SCAN_S, row.tookS());
    assertEquals("off", row.answer());
  }

  /** By hand: 20 g/h for the 71 s until a scan comes again. */
  @Test
  void whatIsFedMeanwhileIsWhatTheOutputGives() {
    assertEquals(20.0 * 71 / 3600, row("interrupted").fed(), 1e-9);
  }

  /** The judgement itself: a fault that nothing answers, and a cause that nobody names, fail. */
  @Test
  void whatIsNotAnsweredOrNotExplainedFails() {
    List<FaultReport.Row> rows = new ArrayList<>(REPORT.faults());
    rows.add(
        new FaultReport.Row(
            "no_flow", "x", "chlorine", "off", false, 9, 0, true, "inhibit", true, "by itself"));
    assertFalse(new FaultReport(rows, List.of()).ok());
    assertFalse(
        new FaultReport(List.of(), List.of(new FaultReport.Left("no_flow", FaultReport.NO_REASON)))
            .ok());
    assertTrue(String.join("\n", new FaultReport(rows, List.of()).lines()).contains("NONE"));
  }

  @Test
  void tableAndDocumentHaveEveryCause() throws Exception {
    String table = String.join("\n", REPORT.lines());
    JsonNode document = new ObjectMapper().readTree(REPORT.json());
    for (Cause cause : Cause.values()) {
      assertTrue(table.contains("\n" + cause.id() + " "), cause.id());
      assertEquals(
          1, document.findValuesAsText("cause").stream().filter(cause.id()::equals).count());
    }
    assertTrue(document.at("/ok").asBoolean());
    assertTrue(document.at("/faults/0/took_s").isNumber());
  }

  private static FaultReport.Row row(String cause) {
    return REPORT.faults().stream().filter(r -> r.cause().equals(cause)).findFirst().orElseThrow();
  }
}
