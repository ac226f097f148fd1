package limnostat.safety;

import java.util.OptionalDouble;

/**
 * The installer's limits of process and cell. Each lies within {@link HardBounds}.
 *
 * @param noResponseMgL chlorine that may be fed with no response of ORP, by the label, mg/L
 * @param cellMaxA cell current above which chlorine is off, A; empty: not watched
 * @param cellUsualA cell current at full duty with the right salt at 25 °C, A; empty: not
 *     configured, and a low one is not looked for
 * @param testOverdueS time without a person's test of free chlorine that is too long, s
 */
public record ProcessLimits(
    double noResponseMgL, OptionalDouble cellMaxA, OptionalDouble cellUsualA, double testOverdueS) {

  /** Where nothing is configured (engineering judgement). */
  public static final ProcessLimits USUAL =
      new ProcessLimits(4, OptionalDouble.empty(), OptionalDouble.empty(), 14 * 86_400.0);

  /**
   * What may be fed with no response where that is not configured, mg/L: less than what takes a
   * pool at its target to the high limit if all of it arrives after all, for the pool uses a part
   * of it in the meantime (engineering judgement).
   */
  public static double noResponseMgL(double freeChlorineHighMgL) {
    return Math.max(1, Math.min(USUAL.noResponseMgL, 0.8 * freeChlorineHighMgL));
  }

  /** Conductivity of salt, and with it the current at a given voltage, rises so much a °C. */
  private static final double PER_C = 0.02;

  /**
   * Current to expect of the cell, A: in warm water a supply holds it, in cold water it falls with
   * conductivity (Conductivity, secondary source).
   *
   * @param output what the output does, 0–1
   * @param waterC water temperature, °C
   */
  public static double expectedA(double usualA, double output, double waterC) {
    return usualA * output * Math.max(0.5, Math.min(1, 1 + PER_C * (waterC - 25)));
  }
}
