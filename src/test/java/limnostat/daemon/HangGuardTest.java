package limnostat.daemon;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;

/** How long a scan may take; {@link TroubleIT} has what happens then. */
class HangGuardTest {
  private static long limitS(long periodS, boolean scanned) {
    return TimeUnit.NANOSECONDS.toSeconds(
        HangGuard.limitNs(TimeUnit.SECONDS.toNanos(periodS), scanned));
  }

  @Test
  void theFirstScanHasAMinuteAndTheLaterOnesTwoPeriodsAndEightSeconds() {
    assertEquals(60, limitS(1, false));
    assertEquals(128, limitS(60, false), "a period of a minute");
    assertEquals(10, limitS(1, true));
    assertEquals(128, limitS(60, true));
    assertTrue(Daemon.START_S > limitS(1, false), "the service manager waits longer");
  }
}
