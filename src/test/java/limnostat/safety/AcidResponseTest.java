package limnostat.safety;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.function.DoubleUnaryOperator;
import limnostat.measure.Measurement;
import limnostat.safety.AcidResponse.Kind;
import org.junit.jupiter.api.Test;

/** Each two hours a turn of acid by which pH should fall by 0.1. */
class AcidResponseTest {
  private static final double STEP_S = 60;
  private static final int TURN_MIN = 120;

  private AcidResponse acid = AcidResponse.START;
  private int minutes;
  private double fall = 0.1;

  private void step(Measurement ph, double expected, boolean agreed) {
    acid = acid.step(new AcidResponse.Inputs(expected, ph, agreed), STEP_S);
  }

  /** Hours until it is unanswered, or the whole time; pH by the hours since the begin. */
  private double hoursUntil(double forH, DoubleUnaryOperator ph) {
    int begin = minutes;
    while (minutes - begin < 60 * forH && !acid.unanswered()) {
      step(Seen.value(ph.applyAsDouble(minutes / 60.0)), minutes % TURN_MIN == 0 ? fall : 0, false);
      minutes++;
    }
    return (minutes - begin) / 60.0;
  }

  /** 0.4 are fed with the fourth turn, at 6 h; an hour later it should have shown. */
  @Test
  void phThatDoesNotMoveIsNoResponse() {
    double hours = hoursUntil(20, h -> 7.8 + 0.002 * Math.sin(7 * h));
    assertTrue(acid.unanswered());
    assertEquals(Kind.FLAT, acid.trip().kind());
    assertEquals(0.4, acid.trip().expectedFall(), 1e-9);
    assertEquals(0.002, acid.trip().moved(), 0.002);
    assertEquals(7.5, hours, 0.51);
  }

  @Test
  void lessThanTheAmountIsNot() {
    fall = 0.019;
    hoursUntil(40, h -> 7.8);
    assertFalse(acid.unanswered(), "0.38 of 0.4");
    hoursUntil(4, h -> 7.8);
    assertTrue(acid.unanswered());
  }

  /** Each turn lowers it by 0.08 within an hour, and it rises again. */
  @Test
  void phThatFallsByTurnsAnswers() {
    hoursUntil(400, h -> 7.7 - 0.08 * Math.min(1, h % 2) + 0.04 * (h % 2));
    assertFalse(acid.unanswered());
  }

  /** 0.01 to each side of a steady mean is no answer and no rise: a balance of acid and air. */
  @Test
  void aBalanceIsNoRise() {
    hoursUntil(400, h -> 7.55 + 0.012 * Math.sin(Math.PI * h));
    assertFalse(acid.unanswered());
  }

  @Test
  void phThatRisesAllTheWhileIsNoResponse() {
    double hours = hoursUntil(40, h -> 7.5 + 0.02 * h);
    assertTrue(acid.unanswered());
    assertEquals(Kind.RISEN, acid.trip().kind());
    assertEquals(0.18, acid.trip().moved(), 0.02);
    assertEquals(0.4, acid.trip().expectedFall(), 1e-9);
    assertEquals(9, hours, 0.51, "the turn of the first half hour is before the first mean");
  }

  /** It wants both: the rise, and acid in vain. */
  @Test
  void aRiseOfLessIsNoSign() {
    hoursUntil(12, h -> 7.5 + 0.0075 * h);
    assertFalse(acid.unanswered(), "0.09 of 0.1");
    hoursUntil(3, h -> 7.5 + 0.0075 * h);
    assertTrue(acid.unanswered());
  }

  @Test
  void aRiseWithoutAcidIsNoSign() {
    fall = 0;
    hoursUntil(200, h -> 7 + 0.02 * h);
    assertFalse(acid.unanswered());
  }

  /** A fall by 0.03 of what it has risen is an answer, and the count begins anew. */
  @Test
  void aSmallPartOfWhatWasExpectedIsAnAnswer() {
    hoursUntil(5.5, h -> 7.5 + 0.02 * h);
    double peak = acid.peak();
    assertTrue(acid.riseFall() > 0.19, acid::toString);
    for (int i = 0; i < 31; i++) {
      step(Seen.value(peak - 0.031), 0, false);
      minutes++;
    }
    assertEquals(0, acid.riseFall(), 0);
    assertEquals(acid.trough(), acid.peak(), 0);
    assertFalse(acid.unanswered());
  }

  @Test
  void lessIsNone() {
    hoursUntil(5.5, h -> 7.5 + 0.02 * h);
    double before = acid.riseFall();
    double peak = acid.peak();
    double trough = acid.trough();
    for (int i = 0; i < 31; i++) {
      step(Seen.value(peak - 0.028), 0, false);
      minutes++;
    }
    assertEquals(before, acid.riseFall(), 0);
    assertEquals(peak, acid.peak(), 0);
    assertEquals(trough, acid.trough(), 0);
  }

  /** What is fed has an hour to mix before it is judged, and only good pH counts as time. */
  @Test
  void acidHasTimeToMix() {
    hoursUntil(5.9, h -> 7.8);
    step(Seen.value(7.8), 0.5, false);
    for (int i = 0; i < 600; i++) {
      step(Seen.failed(), 0, false);
      step(Seen.standing(), 0, false);
    }
    assertFalse(acid.unanswered());
    for (int i = 0; i < 59; i++) {
      step(Seen.value(7.8), 0, false);
      assertFalse(acid.unanswered());
    }
    for (int i = 0; i < 31; i++) {
      step(Seen.value(7.8), 0, false);
    }
    assertTrue(acid.unanswered());
  }

  @Test
  void aLongStepWeighsNoMoreThanAMinute() {
    step(Seen.value(7.8), 0, false);
    acid = acid.step(new AcidResponse.Inputs(0, Seen.value(7.8), false), 1e6);
    assertEquals(120, acid.forS(), 0);
    assertEquals(120, acid.sinceAcidS(), 0);
    assertEquals(120 * 7.8, acid.sumPhS(), 1e-9);
  }

  @Test
  void onlyATestThatAgreesEndsIt() {
    hoursUntil(20, h -> 7.8);
    AcidResponse.Trip trip = acid.trip();
    for (int i = 0; i < 10_000; i++) {
      step(Seen.value(7.8 - i / 1e4), 0, false);
    }
    assertEquals(trip, acid.trip());
    step(Seen.value(7.8), 0, true);
    assertEquals(AcidResponse.START, acid);
  }

  @Test
  void aTestThatAgreesBeginsAnew() {
    hoursUntil(5.9, h -> 7.8);
    step(Seen.value(7.8), 0, true);
    minutes++;
    hoursUntil(6, h -> 7.8);
    assertFalse(acid.unanswered());
  }

  /** One more minute makes half an hour, with a mean of so much; all else as said. */
  private static AcidResponse looked(double mean, AcidResponse before) {
    AcidResponse full =
        new AcidResponse(
            1740,
            1800 * mean,
            before.sinceAcidS(),
            before.least(),
            before.most(),
            before.flatFall(),
            before.trough(),
            before.peak(),
            before.riseFall(),
            before.trip());
    return full.step(new AcidResponse.Inputs(0, Seen.value(0), false), 60);
  }

  private static AcidResponse with(
      double least, double most, double flatFall, double trough, double peak, double riseFall) {
    return new AcidResponse(
        0, 0, 3540, least, most, flatFall, trough, peak, riseFall, AcidResponse.START.trip());
  }

  /** Near 0 these differences are exact. */
  @Test
  void theEdgesThemselves() {
    assertEquals(0.3, looked(0.01, with(0, 0, 0.3, -1, 0.01, 0.2)).flatFall(), 0, "flat at 0.01");
    assertEquals(0, looked(0.0101, with(0, 0, 0.3, -1, 0.01, 0.2)).flatFall(), 0);
    assertEquals(0, looked(0, with(-1, 0, 0, -1, 0.03, 0.2)).riseFall(), 0, "answered by 0.03");
    assertEquals(0, looked(0, with(-1, 0, 0, 0, 0, 0.2)).riseFall(), 0, "no rise is no sign");
    assertTrue(looked(0.1, with(-1, 0, 0, 0, 0.1, 0.4)).unanswered(), "0.4, 0.1 and an hour");
    assertFalse(looked(0.099, with(-1, 0, 0, 0, 0.099, 0.4)).unanswered());
    assertFalse(looked(0.1, with(-1, 0, 0, 0, 0.1, 0.399)).unanswered());
    assertTrue(looked(0, with(0, 0, 0.4, 0, 0, 0)).unanswered(), "flat");
  }

  @Test
  void theBandIsThatOfAllMeansSince() {
    AcidResponse next = looked(0.005, with(0, 0.009, 0.2, -1, 0.01, 0));
    assertEquals(0.2, next.flatFall(), 0);
    assertEquals(0, next.least(), 0);
    assertEquals(0.009, next.most(), 0);
    AcidResponse moved = looked(-0.002, next);
    assertEquals(0, moved.flatFall(), 0, "0.009 and -0.002");
    assertEquals(moved.least(), moved.most(), 0);
  }
}
