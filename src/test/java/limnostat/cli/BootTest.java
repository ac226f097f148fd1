package limnostat.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import limnostat.ledger.Moment;
import org.junit.jupiter.api.Test;

/** An outage that is counted too long would empty the dose windows: it is what is proved. */
class BootTest {
  private static final Boot BOOT = new Boot("this", 5000);

  private static Moment saved(double monotonicS, String bootId) {
    return new Moment(monotonicS, 1.7e9, true, bootId);
  }

  @Test
  void withinABootTheMonotonicClockProvesIt() {
    assertEquals(300, BOOT.outageS(saved(1000, "this"), 1300));
  }

  @Test
  void afterAnotherBootAtLeastTheUptimeIsProved() {
    assertEquals(5000, BOOT.outageS(saved(1e6, "other"), 1300));
  }

  /** Saved where the boot could not be named: it may have been a second ago. */
  @Test
  void anUnnamedBootProvesNothing() {
    assertEquals(0, BOOT.outageS(saved(1000, ""), 1300));
    assertEquals(0, new Boot("", 5000).outageS(saved(1000, "this"), 1300));
    assertEquals(0, new Boot("", 5000).outageS(saved(1000, ""), 1300));
  }

  @Test
  void aClockThatRanBackwardsProvesNothing() {
    assertEquals(0, BOOT.outageS(saved(2000, "this"), 1300));
  }

  @Test
  void noOutageIsLongerThanTheBoot() {
    assertEquals(5000, BOOT.outageS(saved(-1e9, "this"), 1300));
  }

  @Test
  void thisMachinesBootHasANameAndAnAge() {
    Boot boot = Boot.ofSystem();
    assertTrue(boot.id().matches("[0-9a-f-]{36}"), boot.id());
    assertTrue(boot.uptimeS() > 0);
    assertEquals(boot.id(), Boot.ofSystem().id());
  }

  @Test
  void aMomentNamesItsBoot() {
    Clock.Simulated clock = new Clock.Simulated(1000);
    clock.advance(5);
    assertEquals(new Moment(5, 1005, true, "this"), BOOT.moment(clock));
  }
}
