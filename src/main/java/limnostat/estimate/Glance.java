package limnostat.estimate;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/**
 * What a person sees at a glance on a strip: free chlorine in one of three ranges. It is worth more
 * than no test, and less than any other. If the estimate is inside the range, it adds almost
 * nothing. If the estimate is outside, it draws the estimate to the range. Ranges and edges are
 * engineering judgement on the colours of strips: no colour, a first colour, and the colour of
 * bathing water and beyond.
 */
public enum Glance {
  /** No colour: 0 to 0.3 mg/L. */
  NONE(0, 0.3, 0.15),
  /** A first colour: 0.3 to 1.5 mg/L. */
  LITTLE(0.3, 1.5, 0.35),
  /** 1.5 mg/L and more; above 10 a strip bleaches. */
  PLENTY(1.5, 10, 0.7);

  private final double lowMgL;
  private final double highMgL;
  private final double edgeMgL;

  /**
   * @param edgeMgL how sharply the eye sees the range's edges, as a standard deviation, mg/L
   */
  Glance(double lowMgL, double highMgL, double edgeMgL) {
    this.lowMgL = lowMgL;
    this.highMgL = highMgL;
    this.edgeMgL = edgeMgL;
  }

  /** Its name on the wire. */
  public String key() {
    return name().toLowerCase(Locale.ROOT);
  }

  public static Optional<Glance> ofKey(String key) {
    return Arrays.stream(values()).filter(glance -> glance.key().equals(key)).findFirst();
  }

  /** Lowest free chlorine of the range, mg/L. */
  public double lowMgL() {
    return lowMgL;
  }

  public double highMgL() {
    return highMgL;
  }

  /**
   * A value with its error that says the same as the range, given what is known.
   *
   * @param mgL free chlorine, mg/L
   * @param sdMgL its standard deviation, mg/L
   */
  record Reading(double mgL, double sdMgL) {}

  /**
   * If the known value is within the range, the glance counts as a reading of that value, give or
   * take half of the range. If it is outside, the reading is inside the range by the edge's error,
   * or by the deviation of the known value if that is larger.
   */
  Reading beside(BelievedNow known) {
    double half = (highMgL - lowMgL) / 2;
    if (known.mgL() >= lowMgL && known.mgL() <= highMgL) {
      return new Reading(known.mgL(), half);
    }
    double sd = Math.min(half, Math.max(edgeMgL, known.sdMgL()));
    return new Reading(known.mgL() < lowMgL ? lowMgL + sd : highMgL - sd, sd);
  }
}
