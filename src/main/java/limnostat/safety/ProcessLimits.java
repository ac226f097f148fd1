package limnostat.safety;

import java.util.OptionalDouble;

/**
 * The installer's limits on the process and the cell. Each lies within {@link HardBounds}.
 *
 * @param noResponseMgL chlorine that may be fed with no response of ORP, by the label, mg/L
 * @param cellMaxA cell current above which chlorine is off, A; empty: not watched
 * @param cellUsualA cell current at full duty with the right salt at 25 °C, A; empty: not
 *     configured, so a low current is not detected
 * @param testOverdueS time without a manual test of free chlorine after which a test is overdue, s
 */
public record ProcessLimits(
    double noResponseMgL, OptionalDouble cellMaxA, OptionalDouble cellUsualA, double testOverdueS) {

  /** Defaults where nothing is configured (engineering judgement). */
  public static final ProcessLimits USUAL =
      new ProcessLimits(4, OptionalDouble.empty(), OptionalDouble.empty(), 14 * 86_400.0);

  /**
   * Default for the chlorine that may be fed with no response, mg/L. Even if all of it takes effect
   * later, a pool at its target does not reach the high limit, because it uses part of the chlorine
   * in the meantime (engineering judgement).
   */
  public static double noResponseMgL(double freeChlorineHighMgL) {
    return Math.max(1, Math.min(USUAL.noResponseMgL, 0.8 * freeChlorineHighMgL));
  }

  /**
   * Conductivity of salt water, and with it the current at a given voltage, rises by this share per
   * °C.
   */
  private static final double PER_C = 0.02;

  /**
   * Expected cell current, A. In warm water the supply regulates it; in cold water it falls with
   * conductivity (Conductivity, secondary source).
   *
   * @param output output level, 0–1
   * @param waterC water temperature, °C
   */
  public static double expectedA(double usualA, double output, double waterC) {
    return usualA * output * Math.max(0.5, Math.min(1, 1 + PER_C * (waterC - 25)));
  }
}
