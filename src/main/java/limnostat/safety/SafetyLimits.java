package limnostat.safety;

/**
 * The installer's limits. Each lies within {@link HardBounds}.
 *
 * @param orpHighMv ORP at and above which chlorine is off, mV
 * @param freeChlorineHighMgL estimate at and above which chlorine is off, mg/L
 * @param superchlorinationMaxMgL the same limit while a superchlorination runs, and its highest
 *     target, mg/L
 * @param phDosingMin below this pH no chlorine and no acid
 * @param phDosingMax above this pH no chlorine
 * @param waterMinC below this no chlorine from the output (a cell's cold limit), °C
 * @param waterMaxC above this no chlorine, °C
 * @param flowProvingS uninterrupted flow before any dosing, s
 * @param separationS time between chlorine and acid, s
 * @param blindFeedMgL most chlorine that may be fed while nothing trustworthy measures it, mg/L of
 *     the pool since it was last confirmed
 * @param process limits on the process and the cell
 * @param run how often the program may restart
 */
public record SafetyLimits(
    double orpHighMv,
    double freeChlorineHighMgL,
    double superchlorinationMaxMgL,
    double phDosingMin,
    double phDosingMax,
    double waterMinC,
    double waterMaxC,
    double flowProvingS,
    double separationS,
    double blindFeedMgL,
    ProcessLimits process,
    RunLimits run) {

  /** With the default limits on process, cell and restarts. */
  public SafetyLimits(
      double orpHighMv,
      double freeChlorineHighMgL,
      double superchlorinationMaxMgL,
      double phDosingMin,
      double phDosingMax,
      double waterMinC,
      double waterMaxC,
      double flowProvingS,
      double separationS,
      double blindFeedMgL) {
    this(
        orpHighMv,
        freeChlorineHighMgL,
        superchlorinationMaxMgL,
        phDosingMin,
        phDosingMax,
        waterMinC,
        waterMaxC,
        flowProvingS,
        separationS,
        blindFeedMgL,
        ProcessLimits.USUAL,
        RunLimits.USUAL);
  }

  /**
   * The default blind budget, mg/L. Even a pool that is at its high limit and uses no chlorine
   * stays within {@link HardBounds#FREE_CHLORINE_HIGH_MG_L}, the highest level that a bathing code
   * allows.
   */
  public static double blindFeedMgL(double freeChlorineHighMgL) {
    return Math.max(1, HardBounds.FREE_CHLORINE_HIGH_MG_L - freeChlorineHighMgL);
  }

  /**
   * Highest free-chlorine target, mg/L: the lower of the high limit and the program's own bound.
   */
  public double targetMaxMgL() {
    return Math.min(freeChlorineHighMgL, HardBounds.TARGET_MG_L);
  }
}
