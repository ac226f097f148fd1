package limnostat.measure;

import limnostat.water.Nernst;

/**
 * A glass electrode's calibration.
 *
 * @param offsetMv potential at pH 7, mV
 * @param slopeFraction slope as a fraction of Nernst's
 */
public record PhCalibration(double offsetMv, double slopeFraction) {
  public static final PhCalibration IDEAL = new PhCalibration(0, 1);

  /** What a difference of potential, mV, is in pH at 25 °C, where stillness is looked at. */
  public double perPh(double mv) {
    return mv / (slopeFraction * Nernst.slopeMvPerPh(Measure.UNCOMPENSATED_C));
  }
}
