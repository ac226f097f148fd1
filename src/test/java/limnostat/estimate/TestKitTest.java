package limnostat.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import limnostat.water.ChlorineForm;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class TestKitTest {

  private static EstimateSettings pool(TestKit kit) {
    return new EstimateSettings(
        50, 46, 8, SlowSettings.configured(30, 3400, ChlorineForm.SALT_CELL, 1), 2, 2, kit);
  }

  private static WaterTest test(double freeChlorineMgL, Optional<TestKit> kit) {
    WaterTest test = WaterTest.EMPTY.with(Tested.FREE_CHLORINE, freeChlorineMgL);
    return kit.map(test::readWith).orElse(test);
  }

  private static final BelievedNow KNOWN = new BelievedNow(2, 0.3);

  /** What tests were taken to be before there were kits. */
  @ParameterizedTest
  @CsvSource({"0, 0.25", "1, 0.25", "2.5, 0.25", "3, 0.3", "7.3, 0.73"})
  void withoutAKitItIsTheUsualError(double readMgL, double sdMgL) {
    assertEquals(sdMgL, TestKit.UNSPECIFIED.sdMgL(readMgL), 1e-15);
    assertEquals(0.07, TestKit.UNSPECIFIED.biasSdShare());
  }

  /** By hand: √(w²/12 + s²). */
  @ParameterizedTest
  @CsvSource({
    "drops, 0, 0.17559", // w 0.5, s 0.1
    "drops, 4, 0.24664", // w 0.5, s 0.2
    "comparator, 1, 0.20817", // w 0.5, s 0.15
    "comparator, 4, 0.56862", // w 1.4, s 0.4
    "strips, 0, 0.28868", // w 0.5, s 0.25
    "strips, 3, 0.79373", // w 1.8, s 0.6
    "photometer, 1, 0.08005", // w 0.01, s 0.08
    "photometer, 4, 0.20002" // w 0.01, s 0.2
  })
  void resolutionAndScatterAddAsVariances(String key, double readMgL, double sdMgL) {
    assertEquals(sdMgL, TestKit.ofKey(key).orElseThrow().sdMgL(readMgL), 1e-5);
  }

  @Test
  void aBetterKitMovesTheEstimateFurther() {
    List<Double> moved = new ArrayList<>();
    for (TestKit kit : List.of(TestKit.STRIPS, TestKit.COMPARATOR, TestKit.PHOTOMETER)) {
      EstimateState state = Estimator.start(pool(kit), 3);
      state = Estimator.test(state, test(2, Optional.empty()).by(kit, KNOWN));
      moved.add(
          Math.sqrt(
              Estimator.test(state, test(3, Optional.empty()).by(kit, KNOWN))
                  .belief()
                  .variance(0)));
    }
    assertTrue(moved.get(0) > moved.get(1) && moved.get(1) > moved.get(2), moved.toString());
  }

  /** A kit that is used once is not the one whose bias is learned: 15 % of 3 come on top. */
  @Test
  void anotherKitBringsItsOwnBias() {
    TestKit once =
        test(3, Optional.of(TestKit.STRIPS)).by(TestKit.DROPS, KNOWN).kit().orElseThrow();
    assertEquals(Math.sqrt(1.8 * 1.8 / 12 + 0.6 * 0.6 + 0.45 * 0.45), once.sdMgL(3), 1e-12);
    assertEquals(
        TestKit.DROPS,
        test(3, Optional.of(TestKit.DROPS)).by(TestKit.DROPS, KNOWN).kit().orElseThrow());
    assertEquals(
        TestKit.DROPS, test(3, Optional.empty()).by(TestKit.DROPS, KNOWN).kit().orElseThrow());
  }

  @Test
  void aKitWithoutErrorIsNone() {
    assertThrows(IllegalArgumentException.class, () -> new TestKit("x", 0.1, 0, 0, 0.1, 0.1));
    assertThrows(
        IllegalArgumentException.class, () -> new TestKit("x", Double.NaN, 0, 0.1, 0.1, 0.1));
    assertEquals(Optional.empty(), TestKit.ofKey("eye"));
    assertEquals(Optional.empty(), TestKit.ofKey(""));
  }
}
