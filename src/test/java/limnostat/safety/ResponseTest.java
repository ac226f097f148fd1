package limnostat.safety;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.function.DoubleUnaryOperator;
import limnostat.measure.Measurement;
import limnostat.safety.Response.Kind;
import org.junit.jupiter.api.Test;

/** Feeding 0.2 mg/L an hour, 4 mg/L in 20 h; hours are what stories go by. */
class ResponseTest {
  private static final double STEP_S = 60;
  private static final double SETPOINT_MV = 700;
  private static final double MG_L_H = 0.2;
  private static final double MOST_MG_L = 4;

  private Response response = Response.START;
  private double setpointMv = SETPOINT_MV;
  private double hours;
  private double fedMgL;

  private boolean step(Measurement orpMv, double mgLH, boolean tested, boolean raised) {
    double fed = mgLH * STEP_S / 3600;
    hours += STEP_S / 3600;
    fedMgL += fed;
    response =
        response.step(
            new Response.Inputs(fed, orpMv, setpointMv, tested, raised), MOST_MG_L, STEP_S);
    return response.now() || response.falling(MOST_MG_L);
  }

  /** Whether it trips or falls within a time; ORP by the hours since the begin. */
  private boolean trips(double forH, DoubleUnaryOperator orpMv) {
    for (double until = hours + forH; hours < until; ) {
      if (step(Seen.value(orpMv.applyAsDouble(hours)), MG_L_H, false, false)) {
        return true;
      }
    }
    return false;
  }

  @Test
  void orpThatDoesNotMoveIsNoResponseOnceItWasFedEnough() {
    assertFalse(trips(19.9, h -> 690 + 0.2 * Math.sin(h)));
    assertTrue(trips(1, h -> 690 + 0.2 * Math.sin(h)));
    assertEquals(Kind.FLAT, response.trip().kind());
    assertEquals(4, response.trip().fedMgL(), 0.2);
    assertFalse(trips(19, h -> 690), "told once, and then it takes as much again");
    assertTrue(trips(2, h -> 690));
  }

  private boolean tripsFlat(double forH, double mgLH) {
    for (double until = hours + forH; hours < until; ) {
      if (step(Seen.value(690 + 0.2 * Math.sin(hours)), mgLH, false, false)) {
        return true;
      }
    }
    return false;
  }

  /** Dead a little too high, less and less is fed: after 30 h 1 mg/L in vain is enough. */
  @Test
  void orpThatHasNotMovedForLongWantsAQuarterOfTheAmount() {
    assertFalse(tripsFlat(29.9, 0.06));
    assertTrue(tripsFlat(1, 0.06));
    assertEquals(Kind.FLAT, response.trip().kind());
    assertEquals(1.83, response.trip().fedMgL(), 0.05);
  }

  /** Nothing fed, nothing in vain: a pool that is switched off for the winter. */
  @Test
  void withoutFeedingAStillOrpIsNoSign() {
    assertFalse(tripsFlat(500, 0));
    assertFalse(tripsFlat(9.5, 0.1), "0.95 mg/L");
    assertTrue(tripsFlat(2, 0.1));
  }

  @Test
  void orpThatMovesAnswers() {
    assertFalse(trips(400, h -> 690 + 0.5 * Math.sin(h / 3)));
  }

  /** Both come to the same: 1.5 mV an hour from the setpoint on, or from a party's low. */
  @Test
  void orpThatFallsWithoutARiseIsFalling() {
    falls();
    double fallenMv = response.peakMv() - response.troughMv();
    assertTrue(fallenMv >= 28 && fallenMv < 50, "" + response);
    assertTrue(response.fallMgL() >= 6 && fedMgL < 10, "fed " + fedMgL);
  }

  /** 1.5 mV an hour, from the setpoint on. */
  private void falls() {
    assertFalse(trips(10, h -> 705 + 5 * Math.sin(h)));
    double from = hours;
    assertTrue(trips(40, h -> 705 - 1.5 * (h - from)));
    assertTrue(response.falling(MOST_MG_L));
    assertEquals(Kind.NONE, response.trip().kind(), "it latches nothing");
  }

  /** Electrodes drift, but a fall that stands still for a month is no less a fall. */
  @Test
  void aFallThatStandsStillGoesOn() {
    falls();
    double from = 705 - 1.5 * (hours - 10);
    for (double until = hours + 24 * 30; hours < until; ) {
      step(Seen.value(from + Math.sin(hours)), MG_L_H, false, false);
      assertTrue(response.falling(MOST_MG_L), "hour " + hours);
    }
  }

  @Test
  void aRiseEndsAFall() {
    falls();
    double from = hours;
    double low = 705 - 1.5 * (hours - 10);
    while (hours < from + 3) {
      step(Seen.value(low + 5 * (hours - from)), MG_L_H, false, false);
    }
    assertFalse(response.falling(MOST_MG_L), "up by 15 mV: " + response);
  }

  @Test
  void aTestEndsAFall() {
    falls();
    step(Seen.value(705 - 1.5 * (hours - 10)), MG_L_H, true, false);
    assertFalse(response.falling(MOST_MG_L));
  }

  /** Nor does what cannot be read, and much chlorine by a command is no answer of ORP. */
  @Test
  void neitherASuperchlorinationNorAFailedProbeEndsAFall() {
    falls();
    for (int i = 0; i < 60 * 48; i++) {
      step(Seen.value(760), 1, false, true);
      assertTrue(response.falling(MOST_MG_L));
    }
    for (int i = 0; i < 60 * 48; i++) {
      step(Seen.failed(), MG_L_H, false, false);
      assertTrue(response.falling(MOST_MG_L));
    }
  }

  @Test
  void aFallThatPausesForARiseIsAnswered() {
    // A too small output: 22 mV down in three days, with a swing of 8 mV to either side each day.
    assertFalse(trips(72, h -> 700 - 0.3 * h + 8 * Math.sin(h * Math.PI / 12)));
  }

  /** A party and a storm: 40 mV down in three hours, back within a day. */
  @Test
  void whatFallsAtOnceIsNoOutputThatIsDead() {
    assertFalse(trips(10, h -> 700 + 2 * Math.sin(h)));
    double from = hours;
    assertFalse(trips(3, h -> 700 - 40 * (h - from) / 3));
    assertFalse(trips(24, h -> 660 + 40 * (h - from - 3) / 24));
  }

  /** 3 mg/L alone are no proof of anything, however far it falls; nor is what was not fed. */
  @Test
  void itTakesAsMuchAsIsStated() {
    assertFalse(trips(15, h -> 700 - 4 * h));
    for (int i = 0; i < 600; i++) {
      assertFalse(step(Seen.value(600 - 0.01 * i), 0, false, false));
    }
  }

  @Test
  void anElectrodeThatDriftsIsNoDeadOutput() {
    assertFalse(trips(24 * 40, h -> 700 - 2.5 * h / 24 + Math.sin(h) * 2));
  }

  /** A setpoint that moves with a test is no fall of ORP, and a test begins the watch anew. */
  @Test
  void aTestBeginsTheFallAnew() {
    assertFalse(trips(15, h -> 700 - 1.5 * h));
    setpointMv = 760;
    assertFalse(step(Seen.value(677), MG_L_H, true, false));
    double from = hours;
    assertFalse(trips(28, h -> 677 - 1.5 * (h - from)));
    assertTrue(trips(8, h -> 677 - 1.5 * (h - from)));
  }

  @Test
  void aSuperchlorinationIsNotJudged() {
    for (int i = 0; i < 60 * 48; i++) {
      assertFalse(step(Seen.value(760), 1, false, true));
    }
    assertFalse(trips(19, h -> 760));
  }

  /** What cannot be read is fed for all the same, and counts once ORP is back. */
  @Test
  void anOrpThatComesAndGoesDoesNotPutItOff() {
    for (int i = 0; i < 60 * 30; i++) {
      Measurement orp = i % 3 == 0 ? Seen.value(690) : Seen.failed();
      if (step(orp, MG_L_H, false, false)) {
        assertTrue(fedMgL < 4.4, "fed " + fedMgL);
        return;
      }
    }
    throw new AssertionError("no trip: " + response);
  }
}
