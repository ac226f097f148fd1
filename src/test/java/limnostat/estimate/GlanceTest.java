package limnostat.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import java.util.OptionalDouble;
import limnostat.rig.Fixtures;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class GlanceTest {
  private static final OptionalDouble NO = OptionalDouble.empty();
  private static final EstimateSettings POOL = Fixtures.SALT_POOL;

  private static EstimateState tested(EstimateState state, double mgL) {
    return Estimator.test(
        state,
        WaterTest.EMPTY
            .with(Tested.FREE_CHLORINE, mgL)
            .by(TestKit.PHOTOMETER, BelievedNow.of(state)));
  }

  private static EstimateState seen(EstimateState state, Glance glance) {
    WaterTest test = WaterTest.EMPTY.seen(glance);
    return Estimator.test(state, test.by(TestKit.UNSPECIFIED, BelievedNow.of(state)));
  }

  /** Known, its deviation, seen; the value and the error that stand for it, by hand. */
  @ParameterizedTest
  @CsvSource({
    "2, 0.3, PLENTY, 2, 4.25", // within: nothing new
    "0.9, 0.3, LITTLE, 0.9, 0.6",
    "0.2, 0.1, NONE, 0.2, 0.15",
    "3, 0.3, NONE, 0.15, 0.15", // above: at the upper edge
    "3, 0.3, LITTLE, 1.15, 0.35",
    "3, 2, LITTLE, 0.9, 0.6", // unsure: anywhere within
    "0.5, 0.2, PLENTY, 2.2, 0.7", // below: at the lower edge
    "0.5, 2, PLENTY, 3.5, 2",
    "0.1, 0.1, LITTLE, 0.65, 0.35",
    "14, 2, PLENTY, 8, 2"
  })
  void aRangeIsAValueBesideWhatIsKnown(
      double knownMgL, double knownSdMgL, Glance glance, double mgL, double sdMgL) {
    Glance.Reading reading = glance.beside(new BelievedNow(knownMgL, knownSdMgL));
    assertEquals(mgL, reading.mgL(), 1e-12);
    assertEquals(sdMgL, reading.sdMgL(), 1e-12);
    assertTrue(reading.mgL() >= glance.lowMgL() && reading.mgL() <= glance.highMgL());
  }

  @Test
  void whatIsKnownIsHardlyMovedBySeeingItAgain() {
    EstimateState state = tested(tested(Estimator.start(POOL, 3), 4), 4);
    BelievedNow before = BelievedNow.of(state);
    BelievedNow after = BelievedNow.of(seen(state, Glance.PLENTY));
    assertEquals(before.mgL(), after.mgL(), 0.01);
    assertEquals(before.sdMgL(), after.sdMgL(), 0.01);
  }

  @Test
  void aFirstGlanceSaysWhereItIs() {
    EstimateState start = Estimator.start(POOL, 3);
    double none = BelievedNow.of(seen(start, Glance.NONE)).mgL();
    double little = BelievedNow.of(seen(start, Glance.LITTLE)).mgL();
    double plenty = BelievedNow.of(seen(start, Glance.PLENTY)).mgL();
    assertTrue(none < 0.5, "none: " + none);
    assertTrue(little > 0.5 && little < 1.6, "little: " + little);
    assertTrue(plenty > 1.8 && plenty < 3, "plenty: " + plenty);
  }

  @Test
  void itIsWorthLessThanATest() {
    EstimateState state = Estimator.start(POOL, 3);
    assertTrue(
        BelievedNow.of(seen(state, Glance.LITTLE)).sdMgL()
            > BelievedNow.of(tested(state, 1.2)).sdMgL());
    assertTrue(BelievedNow.of(seen(state, Glance.LITTLE)).mgL() < BelievedNow.of(state).mgL());
  }

  /** It says nothing of combined chlorine, whatever is tested beside it. */
  @Test
  void combinedChlorineIsNotReckonedFromIt() {
    WaterTest test =
        WaterTest.EMPTY.seen(Glance.PLENTY).by(TestKit.STRIPS, new BelievedNow(2, 0.3));
    assertEquals(NO, test.combinedMgL());
    assertTrue(test.ofFreeChlorine());
    assertEquals(Optional.of(Glance.LITTLE), Glance.ofKey("little"));
    assertEquals(Optional.empty(), Glance.ofKey("LITTLE"));
  }
}
