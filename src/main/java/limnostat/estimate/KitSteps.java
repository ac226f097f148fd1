package limnostat.estimate;

/**
 * The resolution of a person's kit, inferred from its readings. Readings of 3 and 5 suggest a scale
 * of whole steps; 2.8 suggests drops or a photometer. If no kit is configured, its scatter follows
 * from that.
 *
 * @param stepMgL largest step that all readings so far are multiples of, mg/L; infinite: no reading
 *     yet
 */
public record KitSteps(double stepMgL) {
  public static final KitSteps UNKNOWN = new KitSteps(Double.POSITIVE_INFINITY);

  private static final double[] STEPS_MG_L = {1, 0.5, 0.25, 0.2, 0.1, 0.05, 0.01};

  /**
   * Scatter of scales with whole steps, as strips have, as a share (common practice, no source).
   */
  private static final double WHOLE_SD = 0.3;

  /** The same for scales with half steps, as comparators have. */
  private static final double HALF_SD = 0.18;

  /** The same for finer scales: drops and photometers. */
  private static final double FINE_SD = 0.1;

  /** Least deviation, mg/L: sample, eye and hand (common practice, no source). */
  private static final double LEAST_SD_MG_L = 0.25;

  KitSteps with(double readMgL) {
    for (double step : STEPS_MG_L) {
      if (step <= stepMgL && multiple(readMgL, step)) {
        return new KitSteps(step);
      }
    }
    return new KitSteps(STEPS_MG_L[STEPS_MG_L.length - 1]);
  }

  private static boolean multiple(double readMgL, double stepMgL) {
    double steps = readMgL / stepMgL;
    return Math.abs(steps - StrictMath.rint(steps)) < 1e-6;
  }

  /** Deviation of a reading, mg/L. */
  double sdMgL(double readMgL) {
    double share = stepMgL >= 1 ? WHOLE_SD : stepMgL >= 0.5 ? HALF_SD : FINE_SD;
    return Math.max(LEAST_SD_MG_L, share * readMgL);
  }
}
