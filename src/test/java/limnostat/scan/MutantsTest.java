package limnostat.scan;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.LongStream;
import limnostat.actuate.Output;
import limnostat.safety.Cause;
import limnostat.scan.Mutant.Row;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.parallel.Isolated;

/** Each protection taken away in turn is found out by the rules over generated histories. */
@Tag("slow")
@Isolated("a mutant changes the matrix while it is open")
class MutantsTest {
  /** Histories that are looked through for what is at stake in them. */
  private static final int HISTORIES = Integer.getInteger("limnostat.mutants", 400);

  /** Of those so many are run under each mutant. */
  private static final int TRIED = 16;

  /** What the rules cannot miss, and why; each row has its own test in {@code CauseTest}. */
  private static final Map<Row, String> NOT_MISSED =
      Map.ofEntries(
          Map.entry(
              new Row(Cause.ORP_FALLING, Output.CHLORINE),
              "ORP that only falls for days is longer than a history: ResponseTest, FaultSuiteTest"),
          Map.entry(
              new Row(Cause.ESTIMATE_LOST, Output.CHLORINE),
              "it is lost by the weight of hypotheses, which no rule can work out: LongStoriesTest"),
          Map.entry(
              new Row(Cause.INTERRUPTED, Output.CHLORINE),
              "flow is not proven on such a scan either; without both: start and gap, below"),
          Map.entry(new Row(Cause.INTERRUPTED, Output.ACID), "likewise"),
          Map.entry(
              new Row(Cause.RESTART_LOOP, Output.CHLORINE),
              "S1 to S11 say nothing of how often a process may end: RunHealthTest"),
          Map.entry(new Row(Cause.RESTART_LOOP, Output.ACID), "likewise"),
          Map.entry(
              new Row(Cause.FUNCTION_CHECK, Output.CHLORINE),
              "flow is proved anew after it, so it is not proven in it"),
          Map.entry(new Row(Cause.FUNCTION_CHECK, Output.ACID), "likewise"),
          Map.entry(
              new Row(Cause.PH_DISAGREES, Output.ACID),
              "tests against the electrode and an acid turn take longer than a history: PhCheckTest"),
          Map.entry(
              new Row(Cause.PH_UNEXPLAINED, Output.ACID),
              "an hour of flow, a jump and an acid turn hardly ever meet: CauseTest, ModelCareTest"),
          Map.entry(
              new Row(Cause.ACID_NO_RESPONSE, Output.ACID),
              "turns of acid in vain take longer than a history: AcidInVainTest"),
          Map.entry(
              new Row(Cause.CHLORINE_LONGEST_RUN, Output.CHLORINE),
              "the modulator rests by itself; without that: longest run and rest, below"),
          Map.entry(new Row(Cause.ACID_LONGEST_RUN, Output.ACID), "likewise"),
          Map.entry(
              new Row(Cause.FLOW_UNASKED, Output.CHLORINE),
              "the pump's hours hardly ever end within a history, with flow that stays: CauseTest"),
          Map.entry(new Row(Cause.FLOW_UNASKED, Output.ACID), "likewise"),
          Map.entry(
              new Row(Cause.FLOW_STUCK, Output.ACID),
              "that and an acid turn hardly ever meet; the row is missed on chlorine"),
          Map.entry(new Row(Cause.WATER_HOT, Output.ACID), "likewise"));

  @Test
  void everyProtectionThatIsTakenAwayIsMissed() {
    Stakes stakes = new Stakes();
    LongStream.rangeClosed(1, HISTORIES).parallel().forEach(stakes::look);
    List<String> survivors = new ArrayList<>();
    for (Row row : Mutant.matrix()) {
      if (NOT_MISSED.containsKey(row)) {
        System.out.println("mutant without " + row + ": not run, " + NOT_MISSED.get(row));
      } else {
        hunt(Mutant.without(row), stakes.of(row, TRIED), survivors);
      }
    }
    List<Long> any = LongStream.rangeClosed(1, 10 * TRIED).boxed().toList();
    for (Mutant mutant : Mutant.elsewhere()) {
      hunt(mutant, any, survivors);
    }
    assertEquals(List.of(), survivors, "protections that no rule misses");
  }

  private static void hunt(Mutant mutant, List<Long> seeds, List<String> survivors) {
    Optional<Proof.Failure> caught =
        mutant.open(
            () ->
                seeds.parallelStream()
                    .map(seed -> Proof.run(seed, Optional.empty(), mutant.step().get(), seen -> {}))
                    .flatMap(Optional::stream)
                    .findFirst());
    System.out.println(
        caught
            .map(
                f ->
                    String.format(
                        Locale.ROOT,
                        "mutant without %s: %s, seed %d, scan %d: %s",
                        mutant.name(),
                        f.rule(),
                        f.seed(),
                        f.scan(),
                        f.message().lines().findFirst().orElse("").replaceFirst(" ==>.*", "")))
            .orElse(
                "mutant without " + mutant.name() + ": survives " + seeds.size() + " histories"));
    if (caught.isEmpty()) {
      survivors.add(mutant.name());
    }
  }
}
