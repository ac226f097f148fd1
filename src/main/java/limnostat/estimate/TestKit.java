package limnostat.estimate;

import java.util.List;
import java.util.Optional;

/**
 * A person's test kit for free chlorine, and its errors. Three errors are kept apart, as they
 * behave differently. The resolution is w/√12 for a step of width w (any value within it is equally
 * likely). The scatter is new with each test. The bias, from reagents, lamp and eye, is the same in
 * each test. All figures are engineering judgement on the existing kinds of kit, unless another
 * source is given. None is from a maker's data sheet.
 *
 * @param key stable name on the wire and in the option file; empty: none is stated
 * @param stepMgL least width of a step, mg/L
 * @param stepShare width of a step as a share of the reading; the wider of the two counts
 * @param scatterMgL least standard deviation of the scatter, mg/L
 * @param scatterShare the same as a share of the reading; the larger of the two counts
 * @param biasSdShare standard deviation of the bias between kits, as a share of the truth
 */
public record TestKit(
    String key,
    double stepMgL,
    double stepShare,
    double scatterMgL,
    double scatterShare,
    double biasSdShare) {

  /** 0.2 mg/L or 10 %, whichever is more, plus the eye's error (common practice, no source). */
  public static final TestKit UNSPECIFIED = new TestKit("", 0, 0, 0.25, 0.1, 0.07);

  /**
   * Drops counted until a colour disappears (titration). A drop is 0.5 mg/L in a sample of 10 mL,
   * 0.2 in 25 mL (common practice, no source). The coarser value is used. The end point is sharp,
   * so eye and light matter little.
   */
  public static final TestKit DROPS = new TestKit("drops", 0.5, 0, 0.1, 0.05, 0.04);

  /**
   * A colour compared with printed ones: 0.5, 1, 1.5, 2, 3, 5 mg/L and the like. The eye can tell
   * half of the distance between two. The colour bleaches above about 10 mg/L, so the kit then
   * reads nothing (common practice, no source).
   */
  public static final TestKit COMPARATOR = new TestKit("comparator", 0.5, 0.35, 0.15, 0.1, 0.1);

  /**
   * Pads with colours for 0, 0.5, 1, 3, 5, 10 mg/L and the like. They age once the tube is opened.
   */
  public static final TestKit STRIPS = new TestKit("strips", 0.5, 0.6, 0.25, 0.2, 0.15);

  /**
   * An instrument reads the colour, in hundredths. The remaining errors are the person's: bubbles,
   * a dirty or scratched vial, minutes between reagent and reading.
   */
  public static final TestKit PHOTOMETER = new TestKit("photometer", 0.01, 0, 0.08, 0.05, 0.04);

  /** The kits that can be named. */
  public static final List<TestKit> NAMED = List.of(DROPS, COMPARATOR, STRIPS, PHOTOMETER);

  private static final double SQRT_12 = StrictMath.sqrt(12);

  /**
   * @throws IllegalArgumentException if there is no scatter, or an error is not a finite number of
   *     at least 0
   */
  public TestKit {
    requireShare(stepMgL);
    requireShare(stepShare);
    requireShare(scatterMgL);
    requireShare(scatterShare);
    requireShare(biasSdShare);
    if (!(scatterMgL > 0)) {
      throw new IllegalArgumentException("a kit without scatter");
    }
  }

  private static void requireShare(double x) {
    if (!(x >= 0 && x < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException("no error of a kit: " + x);
    }
  }

  /** The kit with this key. */
  public static Optional<TestKit> ofKey(String key) {
    return NAMED.stream().filter(kit -> kit.key.equals(key)).findFirst();
  }

  /**
   * The same as an exception to the usual kit. Its bias is not the learned one, so it counts as
   * scatter.
   */
  TestKit beside(TestKit usual) {
    return equals(usual)
        ? this
        : new TestKit(
            key,
            stepMgL,
            stepShare,
            scatterMgL,
            StrictMath.sqrt(scatterShare * scatterShare + biasSdShare * biasSdShare),
            biasSdShare);
  }

  /**
   * Standard deviation of one test, resolution and scatter, without the bias that all tests of the
   * kit share: √(w²/12 + s²), mg/L.
   *
   * @param readMgL the reading, at least 0, mg/L
   */
  public double sdMgL(double readMgL) {
    double resolution = Math.max(stepMgL, stepShare * readMgL) / SQRT_12;
    double scatter = Math.max(scatterMgL, scatterShare * readMgL);
    return StrictMath.sqrt(resolution * resolution + scatter * scatter);
  }
}
