package limnostat.daemon;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import org.junit.jupiter.api.Test;

class ScanTimingTest {
  private final ScanTiming timing = new ScanTiming(0.5, 0.8);

  private Optional<String> late(double seconds) {
    return timing.scanned((long) (seconds * 1e9), 1_000_000);
  }

  @Test
  void punctualScansAreCountedAndNotTold() {
    for (int i = 0; i < 100; i++) {
      assertEquals(Optional.empty(), late(0.5));
    }
    assertEquals(100, timing.scans());
    assertEquals(0, timing.late());
    assertEquals(0.5, timing.worstLatenessS());
  }

  /** Nearly late before does not hide the first late one. */
  @Test
  void theFirstLateScanIsTold() {
    late(0.4);
    assertEquals("scan 2 began 0.6 s late: machine too busy", late(0.6).orElse("not told"));
  }

  /** A machine that is late all day must not fill its log. */
  @Test
  void onlyWhatIsTwiceAsLateIsToldAgain() {
    int told = 0;
    for (int i = 0; i < 1000; i++) {
      told += late(0.6 + 0.01 * i).isPresent() ? 1 : 0;
    }
    assertTrue(told >= 1 && told <= 5, told + " told");
    assertEquals(1000, timing.late());
    assertTrue(late(100).isPresent());
    assertEquals(Optional.empty(), late(150));
    assertEquals(150, timing.worstLatenessS());
  }

  @Test
  void whatIsLateOrTooLongOverran() {
    late(0.5);
    assertFalse(timing.overran());
    late(0.6);
    assertTrue(timing.overran());
    timing.scanned(0, 800_000_000);
    assertFalse(timing.overran());
    timing.scanned(0, 900_000_000);
    assertTrue(timing.overran());
    assertEquals(2, timing.overruns());
    assertEquals(1, timing.late());
  }

  @Test
  void theLongestScanIsKept() {
    timing.scanned(0, 2_000_000_000);
    timing.scanned(0, 1_000_000);
    assertEquals(2, timing.worstDurationS());
  }
}
