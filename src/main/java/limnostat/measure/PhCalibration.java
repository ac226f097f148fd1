package limnostat.measure;

/**
 * A glass electrode's calibration.
 *
 * @param offsetMv potential at pH 7, mV
 * @param slopeFraction slope as a fraction of Nernst's
 */
public record PhCalibration(double offsetMv, double slopeFraction) {
  public static final PhCalibration IDEAL = new PhCalibration(0, 1);
}
