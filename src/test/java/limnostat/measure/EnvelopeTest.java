package limnostat.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;

/** A tolerance of 3, a move of at most 1 an hour up and 2 down, believed again after 12 or 8 h. */
class EnvelopeTest {
  private static final Envelope.Limits LIMITS = new Envelope.Limits(3, 12 * 3600, 8 * 3600);
  private static final double STEP_S = 60;

  private Envelope envelope = Envelope.START;

  private static Measurement value(double value) {
    return new Measurement.Value(value, Status.GOOD, 0, List.of());
  }

  private void step(Measurement value, boolean settled) {
    envelope = envelope.step(LIMITS, value, STEP_S / 3600, 2 * STEP_S / 3600, settled, STEP_S);
  }

  private void shows(double value, double minutes) {
    for (int i = 0; i < minutes; i++) {
      step(value(value), true);
    }
  }

  private void rests(double minutes) {
    Measurement none =
        new Measurement.None(
            Status.FUNCTION_CHECK, List.of(Plausibility.FRESH_WATER), OptionalDouble.of(99));
    for (int i = 0; i < minutes; i++) {
      step(none, false);
    }
  }

  @Test
  void theFirstValueIsBelievedWhateverItIs() {
    shows(40, 600);
    assertFalse(envelope.doubted());
    assertEquals(37, envelope.low(), 1e-9);
    assertEquals(43, envelope.high(), 1e-9);
  }

  @Test
  void aValueOutsideForHalfAnHourIsDoubted() {
    shows(25, 60);
    shows(29, 29);
    assertFalse(envelope.doubted());
    shows(29, 1);
    assertTrue(envelope.doubted());
    assertEquals(26, envelope.low(), 1e-9);
    assertEquals(32, envelope.high(), 1e-9);
    assertEquals(25 + 3 + 0.5, envelope.waterHigh(), 1e-9);
    assertEquals(25 - 3 - 1, envelope.waterLow(), 1e-9);
  }

  @Test
  void belowLikewise() {
    shows(25, 60);
    shows(20.9, 29);
    assertFalse(envelope.doubted(), "4.1 lower, of 3 and 1 in half an hour");
    shows(20.9, 1);
    assertTrue(envelope.doubted());
  }

  @Test
  void theEdgeItselfIsInside() {
    shows(25, 10);
    for (int i = 0; i < 10; i++) {
      envelope = envelope.step(LIMITS, value(28), 0, 0, true, STEP_S);
      assertEquals(0, envelope.outsideS(), 0);
    }
    shows(25, 1);
    for (int i = 0; i < 10; i++) {
      envelope = envelope.step(LIMITS, value(envelope.low()), 0, 0, true, STEP_S);
      assertEquals(0, envelope.outsideS(), 0);
    }
  }

  /** 1 an hour up: 3 and what an hour and more allow. */
  @Test
  void whatTimeAllowsIsBelieved() {
    for (int h = 0; h < 24; h++) {
      shows(20 + 0.9 * h, 60);
      assertFalse(envelope.doubted(), "hour " + h);
    }
    for (int h = 0; h < 24; h++) {
      shows(40 - 1.9 * h, 60);
      assertFalse(envelope.doubted(), "hour " + h);
    }
  }

  /** 2 an hour up is 1 too much: 3 are used up after three hours. */
  @Test
  void aDriftFasterThanTheWaterIsDoubted() {
    int minutes = 0;
    for (; minutes < 600 && !envelope.doubted(); minutes++) {
      shows(20 + 2 * minutes / 60.0, 1);
    }
    assertEquals(3.5, minutes / 60.0, 0.1);
  }

  /** A value that is outside, and back before half an hour is over, was a slug of other water. */
  @Test
  void outsideCountsWithoutABreakOnly() {
    shows(25, 60);
    for (int i = 0; i < 10; i++) {
      shows(35, 29);
      shows(25, 1);
      assertEquals(0, envelope.outsideS(), 0);
    }
    assertFalse(envelope.doubted());
  }

  @Test
  void aRestAllowsWhatItsLengthAllows() {
    shows(25, 60);
    rests(4 * 60);
    shows(31.5, 60);
    assertFalse(envelope.doubted(), "3 and 4, and more");
    rests(4 * 60);
    shows(40, 60);
    assertTrue(envelope.doubted());
  }

  @Test
  void whatIsHeldOrDoesNotSettleSaysNothing() {
    shows(25, 60);
    for (int i = 0; i < 60; i++) {
      step(new Measurement.Value(60, Status.OUT_OF_SPECIFICATION, 5, List.of()), true);
      step(value(60), false);
    }
    assertFalse(envelope.doubted());
    assertEquals(0, envelope.outsideS(), 0);
  }

  @Test
  void backWhereTheWaterCanBeItIsBelieved() {
    shows(25, 60);
    shows(40, 60);
    assertTrue(envelope.doubted());
    shows(26, 29);
    assertTrue(envelope.doubted());
    shows(26, 2);
    assertFalse(envelope.doubted());
    assertEquals(0, envelope.possibleS(), 0);
    assertEquals(29, envelope.high(), 0.1);
  }

  @Test
  void anotherImpossibleMoveIsNoWayBack() {
    shows(25, 60);
    shows(40, 9 * 60);
    double waterHigh = envelope.waterHigh();
    shows(70, 60);
    assertTrue(envelope.doubted());
    assertEquals(waterHigh + 1, envelope.waterHigh(), 1e-6, "what was believed before goes on");
    assertEquals(30, envelope.possibleS() / 60, 1.5, "and the time begins anew");
  }

  private boolean doubtedAfter(double... shown) {
    envelope = Envelope.START;
    for (double value : shown) {
      for (int minute = 0; minute < 60; minute++) {
        envelope = envelope.step(LIMITS, value(value), 0, 0, true, STEP_S);
      }
    }
    return envelope.doubted();
  }

  /** Nothing moves, and 25 is believed within 3. */
  @Test
  void theEdgesOfTheWaterAreTheWaters() {
    assertFalse(doubtedAfter(25, 40, 28));
    assertFalse(doubtedAfter(25, 40, 22));
    assertFalse(doubtedAfter(25, 10, 28));
    assertFalse(doubtedAfter(25, 10, 22));
    assertTrue(doubtedAfter(25, 40, 28.1));
    assertTrue(doubtedAfter(25, 40, 21.9));
    assertTrue(doubtedAfter(25, 10, 28.1));
    assertTrue(doubtedAfter(25, 10, 21.9));
  }

  /** With time the water can be anywhere: it has to be a move back. */
  @Test
  void furtherAwayIsNoWayBack() {
    Envelope.Limits never =
        new Envelope.Limits(3, Double.POSITIVE_INFINITY, Double.POSITIVE_INFINITY);
    for (double sign : new double[] {1, -1}) {
      envelope = Envelope.START;
      double[] shown = {25, 25 + sign * 6, 25 + sign * 15, 25};
      boolean[] doubted = {false, true, true, false};
      for (int i = 0; i < shown.length; i++) {
        for (int minute = 0; minute < 20 * 60; minute++) {
          envelope = envelope.step(never, value(shown[i]), 1 / 60.0, 1 / 60.0, true, STEP_S);
        }
        assertEquals(doubted[i], envelope.doubted(), sign + ": " + shown[i]);
      }
    }
  }

  @Test
  void afterHalfADayOfPossibleMovesItIsBelieved() {
    shows(25, 60);
    shows(40, 30);
    assertTrue(envelope.doubted());
    rests(6 * 60);
    shows(40, 6 * 60 - 1);
    assertTrue(envelope.doubted());
    shows(40, 1);
    assertFalse(envelope.doubted());
    shows(40, 600);
    assertFalse(envelope.doubted());
  }

  @Test
  void upAndDownHaveTheirOwnTimes() {
    shows(25, 60);
    shows(10, 30);
    assertTrue(envelope.doubted());
    assertFalse(envelope.above());
    shows(10, 8 * 60 - 1);
    assertTrue(envelope.doubted());
    shows(10, 1);
    assertFalse(envelope.doubted());
    shows(40, 30);
    assertTrue(envelope.above());
    shows(40, 12 * 60 - 1);
    assertTrue(envelope.doubted() && envelope.above());
  }

  @Test
  void anInterruptionForgetsWhatWasBelievedAndNotTheDoubt() {
    shows(25, 60);
    assertEquals(Envelope.START, envelope.interrupted());
    shows(40, 60);
    assertEquals(envelope, envelope.interrupted());
    assertEquals(Envelope.START, envelope.forgotten());
  }

  /** A doubt goes where what a person did explains how far the value moved, and to which side. */
  @Test
  void whatAPersonDidExplainsAMoveToThatSideAndSoFar() {
    shows(25, 60);
    shows(31, 30);
    assertTrue(envelope.doubted());
    // It could be 28.5 by itself.
    assertTrue(envelope.explained(0, 9).doubted(), "nothing that lowers it");
    assertTrue(envelope.explained(2.4, 0).doubted(), "31 is beyond 28.5 and 2.4");
    assertFalse(envelope.explained(2.6, 0).doubted());
    envelope = Envelope.START;
    shows(25, 60);
    shows(36, 30);
    assertTrue(envelope.explained(7.4, 0).doubted());
    assertFalse(envelope.explained(7.6, 0).doubted());
    envelope = Envelope.START;
    shows(25, 60);
    shows(15, 30);
    assertTrue(envelope.doubted());
    assertTrue(envelope.explained(9, 5.9).doubted(), "15 is below 21 less 5.9");
    assertFalse(envelope.explained(0, 6.1).doubted());
  }

  @Test
  void whereNothingIsDoubtedNothingIsForgotten() {
    shows(25, 60);
    assertEquals(envelope, envelope.explained(5, 5));
  }
}
