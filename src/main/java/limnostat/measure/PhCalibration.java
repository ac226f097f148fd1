package limnostat.measure;

import limnostat.water.Nernst;

/**
 * A glass electrode's calibration.
 *
 * @param offsetMv potential at pH 7, mV
 * @param slopeFraction slope as a fraction of the Nernst slope
 */
public record PhCalibration(double offsetMv, double slopeFraction) {
  /**
   * Least distance of the buffers: closer ones turn reading errors into slope errors (engineering
   * judgement).
   */
  public static final double LEAST_PH_APART = 1;

  public static final PhCalibration IDEAL = new PhCalibration(0, 1);

  /**
   * Reading of an electrode in a buffer.
   *
   * @param ph of the buffer at its temperature
   * @param mv the reading, mV
   * @param temperatureC of the buffer, °C
   */
  public record Point(double ph, double mv, double temperatureC) {}

  /**
   * From pH = 7 - (E - Eoff) / (s S(t)) for each buffer at its own temperature: E1 - E2 = s (x1 -
   * x2) with x = S(t) (7 - pH).
   */
  public static PhCalibration of(Point one, Point two) {
    double x1 = Nernst.slopeMvPerPh(one.temperatureC) * (7 - one.ph);
    double x2 = Nernst.slopeMvPerPh(two.temperatureC) * (7 - two.ph);
    double slopeFraction = (one.mv - two.mv) / (x1 - x2);
    return new PhCalibration(one.mv - slopeFraction * x1, slopeFraction);
  }

  /** A potential difference, mV, in pH at 25 °C, where the freeze test works. */
  public double perPh(double mv) {
    return mv / (slopeFraction * Nernst.slopeMvPerPh(Measure.UNCOMPENSATED_C));
  }
}
