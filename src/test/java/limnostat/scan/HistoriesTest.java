package limnostat.scan;

import static org.junit.jupiter.api.Assertions.fail;

import java.util.Optional;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/**
 * S1–S12 over generated histories. A failure is shrunk and names its seed; {@code
 * -Dlimnostat.seed=} runs that one alone, {@code -Dlimnostat.histories=} more of them, {@code
 * -Dlimnostat.first=} others.
 *
 * <p>The rules know nothing of the code under test but its settings and what it says of itself. Raw
 * signals, what the outputs physically did, and true time are the history's own. Where a rule has
 * to take the program's word (whether a sample is fresh, the estimate, whether ORP contradicts it)
 * it holds what follows from that; {@code ProbeTest} and {@code EstimatorTest} hold the word.
 */
@Tag("slow")
class HistoriesTest {
  /** So many show all that {@link Coverage} asks for. */
  private static final int WHOLE = 300;

  @Test
  void whatMustNeverHappenDoesNot() {
    long first = Long.getLong("limnostat.seed", Long.getLong("limnostat.first", 1));
    boolean one = Long.getLong("limnostat.seed") != null;
    int histories = one ? 1 : Integer.getInteger("limnostat.histories", 2000);
    Coverage coverage = new Coverage();
    Optional<Proof.Failure> failure =
        LongStream.range(first, first + histories)
            .parallel()
            .mapToObj(seed -> run(seed, coverage))
            .flatMap(Optional::stream)
            .findAny();
    failure.ifPresent(f -> fail(Shrink.describe(Shrink.smallest(f, Scan::step)), f.thrown()));
    if (histories >= WHOLE) {
      coverage.assertComplete((long) histories * Proof.SCANS);
    }
  }

  private static Optional<Proof.Failure> run(long seed, Coverage coverage) {
    Coverage own = new Coverage();
    Optional<Proof.Failure> failure = Proof.run(seed, Optional.empty(), Scan::step, own);
    coverage.add(own);
    return failure;
  }
}
