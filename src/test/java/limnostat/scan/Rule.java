package limnostat.scan;

import java.util.function.Supplier;
import org.junit.jupiter.api.Assertions;

/** One of the properties S1–S12, recomputed from what went in and what came out, scan by scan. */
interface Rule {
  /** Rounding of sums of scan times, s, or of amounts. */
  double ROUNDING = 1e-6;

  void check(Seen seen);

  static void require(boolean holds, Supplier<String> otherwise) {
    Assertions.assertTrue(holds, otherwise);
  }
}
