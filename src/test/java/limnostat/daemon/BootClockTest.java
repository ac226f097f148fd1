package limnostat.daemon;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import limnostat.ledger.Moment;
import org.junit.jupiter.api.Test;

/** An outage that is counted too long would empty the dose windows: it is what is proved. */
class BootClockTest {
  private final Clock.Simulated clock = new Clock.Simulated(1000);
  private final BootClock ofThis = new BootClock("this", 5000, clock);

  /** Begins 1300 s after the clock did. */
  BootClockTest() {
    clock.advance(1300);
  }

  private static Moment saved(double monotonicS, String bootId) {
    return new Moment(monotonicS, 1.7e9, true, bootId);
  }

  @Test
  void withinABootTheMonotonicClockProvesIt() {
    assertEquals(300, ofThis.outageS(saved(1000, "this")));
  }

  @Test
  void afterAnotherBootAtLeastTheUptimeIsProved() {
    assertEquals(5000, ofThis.outageS(saved(1e6, "other")));
  }

  /** Saved where the boot could not be named: it may have been a second ago. */
  @Test
  void anUnnamedBootProvesNothing() {
    assertEquals(0, ofThis.outageS(saved(1000, "")));
    assertEquals(0, new BootClock("", 5000, clock).outageS(saved(1000, "this")));
    assertEquals(0, new BootClock("", 5000, clock).outageS(saved(1000, "")));
  }

  @Test
  void aClockThatRanBackwardsProvesNothing() {
    assertEquals(0, ofThis.outageS(saved(2000, "this")));
  }

  @Test
  void noOutageIsLongerThanTheBoot() {
    assertEquals(5000, ofThis.outageS(saved(-1e9, "this")));
  }

  @Test
  void thisMachinesBootHasANameAndAnAge() {
    BootClock boot = BootClock.ofSystem();
    assertTrue(boot.id().matches("[0-9a-f-]{36}"), boot.id());
    assertTrue(boot.uptimeS() > 0);
    assertEquals(boot.id(), BootClock.ofSystem().id());
  }

  @Test
  void aMomentNamesItsBoot() {
    assertEquals(new Moment(1300, 2300, true, "this"), ofThis.moment());
  }
}
