package limnostat.estimate;

import java.util.List;
import java.util.Optional;

/**
 * What a person tests free chlorine with, and by how much it reads past the truth. Three errors are
 * kept apart, as they behave differently: the resolution, w/√12 of a step of width w (a value that
 * is as likely anywhere within it); the scatter, new with each test; and the bias, the same in each
 * test, from reagents, lamp and eye. All figures are engineering judgement on the kinds of kit that
 * there are, unless another source stands beside them; no maker's sheet is among them.
 *
 * @param key stable word for it, on the wire and in the option file; empty: none is stated
 * @param stepMgL least width of a step, mg/L
 * @param stepShare width of a step as a share of the reading; the wider of the two counts
 * @param scatterMgL least standard deviation of the scatter, mg/L
 * @param scatterShare the same as a share of the reading; the larger of the two counts
 * @param biasSdShare standard deviation of the bias, as a share of the truth, from kit to kit
 */
public record TestKit(
    String key,
    double stepMgL,
    double stepShare,
    double scatterMgL,
    double scatterShare,
    double biasSdShare) {

  /** 0.2 mg/L or 10 %, whichever is more, with the eye's part (common practice, no source). */
  public static final TestKit UNSPECIFIED = new TestKit("", 0, 0, 0.25, 0.1, 0.07);

  /**
   * Drops that are counted until a colour is gone (titration): a drop is 0.5 mg/L in a sample of 10
   * mL, 0.2 in 25 mL (common practice, no source); the coarser one is taken. The end is sharp, so
   * that eye and light matter little.
   */
  public static final TestKit DROPS = new TestKit("drops", 0.5, 0, 0.1, 0.05, 0.04);

  /**
   * A colour beside printed ones: 0.5, 1, 1.5, 2, 3, 5 mg/L and the like, and the eye tells half of
   * what lies between two. It bleaches and reads nothing above about 10 mg/L (common practice, no
   * source).
   */
  public static final TestKit COMPARATOR = new TestKit("comparator", 0.5, 0.35, 0.15, 0.1, 0.1);

  /** Pads of 0, 0.5, 1, 3, 5, 10 mg/L and the like; they age once the tube was open. */
  public static final TestKit STRIPS = new TestKit("strips", 0.5, 0.6, 0.25, 0.2, 0.15);

  /**
   * An instrument reads the colour, in hundredths. What is left is the person's: bubbles, a dirty
   * or scratched vial, minutes between reagent and reading.
   */
  public static final TestKit PHOTOMETER = new TestKit("photometer", 0.01, 0, 0.08, 0.05, 0.04);

  /** Those that can be named. */
  public static final List<TestKit> NAMED = List.of(DROPS, COMPARATOR, STRIPS, PHOTOMETER);

  private static final double SQRT_12 = StrictMath.sqrt(12);

  /**
   * @throws IllegalArgumentException no error at all, or one that is no number
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

  /** The one with a key. */
  public static Optional<TestKit> ofKey(String key) {
    return NAMED.stream().filter(kit -> kit.key.equals(key)).findFirst();
  }

  /**
   * The same beside another that is used as a rule: its own bias is not the one that is learned, so
   * it counts as scatter.
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
   * @param readMgL what was read, at least 0, mg/L
   */
  public double sdMgL(double readMgL) {
    double resolution = Math.max(stepMgL, stepShare * readMgL) / SQRT_12;
    double scatter = Math.max(scatterMgL, scatterShare * readMgL);
    return StrictMath.sqrt(resolution * resolution + scatter * scatter);
  }
}
