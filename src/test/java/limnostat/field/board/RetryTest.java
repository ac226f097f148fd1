package limnostat.field.board;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

class RetryTest {
  private static final long S = 1_000_000_000L;

  @Test
  void waitsTwiceAsLongEachTimeUpToAMinute() {
    Retry retry = new Retry();
    List<Long> triedAtS = new ArrayList<>();
    // the clock of a JVM may be negative and wrap
    long startNs = Long.MAX_VALUE - 50 * S;
    for (long s = 0; s < 250; s++) {
      if (retry.due(startNs + s * S)) {
        triedAtS.add(s);
        retry.failed(startNs + s * S);
      }
    }
    assertEquals(List.of(0L, 1L, 3L, 7L, 15L, 31L, 63L, 123L, 183L, 243L), triedAtS);
  }

  @Test
  void startsAnewAfterASuccess() {
    Retry retry = new Retry();
    retry.failed(0);
    retry.failed(S);
    retry.succeeded();
    assertTrue(retry.due(S));
    retry.failed(S);
    assertTrue(retry.due(2 * S));
  }
}
