package limnostat.safety;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

/** How often a process may end, by hand, with the usual limits: 4 in 30 minutes. */
class RunHealthTest {
  private static final RunLimits LIMITS = RunLimits.USUAL;

  private RunHealth run = RunHealth.START;

  private void lives(double seconds) {
    for (double s = 0; s < seconds; s += 10) {
      run = run.step(LIMITS, false, 10);
    }
  }

  /** The outage is proved, as within a boot. */
  private void dies(double outageS) {
    run = run.resumed(RunHealth.Owed.CRASH).step(LIMITS, false, outageS);
  }

  private void isRestarted(double outageS) {
    run = run.resumed(RunHealth.Owed.ORDERLY).step(LIMITS, false, outageS);
  }

  @Test
  void fourCrashesPassAndTheFifthHolds() {
    for (int i = 0; i < 4; i++) {
      lives(60);
      dies(5);
      assertFalse(run.looping(), "crash " + i);
    }
    lives(60);
    dies(5);
    assertTrue(run.looping());
  }

  /** 5 × 450 s is more than the 1800 s of the window. */
  @Test
  void crashesFarApartPass() {
    for (int i = 0; i < 50; i++) {
      lives(450);
      dies(5);
      assertFalse(run.looping(), "crash " + i);
    }
  }

  @Test
  void anInstallersRestartsCountAQuarter() {
    for (int i = 0; i < 16; i++) {
      isRestarted(5);
      assertFalse(run.looping(), "restart " + i);
    }
    isRestarted(5);
    assertTrue(run.looping(), "17 quarters are more than 4");
  }

  /** The hold is over after 1800 s of one process, and not before, though the ends are older. */
  @Test
  void aCalmTimeEndsTheHold() {
    for (int i = 0; i < 5; i++) {
      dies(0);
    }
    lives(1790);
    assertTrue(run.looping());
    isRestarted(0);
    lives(1790);
    assertTrue(run.looping(), "the calm time begins anew with each process");
    lives(10);
    assertFalse(run.looping());
  }

  /** What is not proved as an outage has not passed: power that comes and goes is a loop too. */
  @Test
  void anOutageCountsAsFarAsItIsProved() {
    for (int i = 0; i < 5; i++) {
      dies(20); // since the boot
    }
    assertTrue(run.looping());
  }

  @Test
  void aPersonEndsItAtOnceAndItCountsAnew() {
    for (int i = 0; i < 5; i++) {
      dies(5);
    }
    run = run.reset().step(LIMITS, false, 1);
    assertFalse(run.looping());
    for (int i = 0; i < 4; i++) {
      dies(5);
    }
    assertFalse(run.looping());
    dies(5);
    assertTrue(run.looping());
  }

  /** A state of any size that is saved with every scan would wear a card. */
  @Test
  void whatIsKeptIsBounded() {
    RunLimits most = new RunLimits(HardBounds.RESTARTS_MAX, 86_400);
    for (int i = 0; i < 1000; i++) {
      run = run.resumed(RunHealth.Owed.ORDERLY).step(most, false, 1);
    }
    assertTrue(run.ends().size() <= 404, run.ends().size() + " kept");
    assertTrue(run.looping(), "and they still count");
  }

  private int scansUntil(boolean overrunning, int overranOneIn) {
    for (int i = 1; i < 10_000; i++) {
      run = run.step(LIMITS, i % overranOneIn == 0, 1);
      if (run.overrunning() == overrunning) {
        return i;
      }
    }
    return Integer.MAX_VALUE;
  }

  @Test
  void tenScansThatOverrunAreAnAlarmAndOneInTenIsNone() {
    assertEquals(10, scansUntil(true, 1));
    int calm = scansUntil(false, 100_000);
    assertTrue(calm >= 90 && calm <= 91, calm + " scans make up for ten overruns, a ninth each");
    assertEquals(Integer.MAX_VALUE, scansUntil(true, 11));
    run = RunHealth.START;
    assertTrue(scansUntil(true, 5) < 100);
  }

  @Test
  void aLostAccountIsKnownAgainAfterADay() {
    run = run.accountUnknown();
    dies(3600);
    lives(22 * 3600);
    assertTrue(run.unknownS() > 0);
    lives(3600);
    assertEquals(0, run.unknownS());
  }

  /** The account keeps free what an output gives between two scans that are no gap. */
  @Test
  void whatIsNoGapIsKeptFree() {
    assertEquals(
        60 * HardBounds.SCAN_GAP_S,
        new limnostat.account.DoseCaps(3600, 1, 1, 1).perScan() * 60,
        1e-9,
        "3600 g/h is a gram a second");
  }
}
