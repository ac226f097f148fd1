package limnostat.measure;

/**
 * What a calibration says about its probe, in NE 107 terms. Sources: water-chemistry sections 3 and
 * 4.
 */
public final class ProbeHealth {
  /**
   * Slope of a good glass electrode, a fraction of the Nernst slope: 95–102 % (checked, secondary).
   */
  public static final double SLOPE_GOOD_MIN = 0.95;

  public static final double SLOPE_GOOD_MAX = 1.02;

  /** Between this and a good slope a person is warned: 90–95 % (common practice, no source). */
  public static final double SLOPE_FAIR_MIN = 0.90;

  /** Outside these the electrode is unusable: 85–105 % (checked, secondary). */
  public static final double SLOPE_MIN = 0.85;

  public static final double SLOPE_MAX = 1.05;

  /** Offset at pH 7 that is still good, mV (engineering judgement: half of the limit). */
  public static final double PH_OFFSET_GOOD_MV = 15;

  /** Offset at pH 7 beyond which the electrode is unusable, mV (checked, secondary). */
  public static final double PH_OFFSET_MAX_MV = 30;

  /**
   * A pool's ORP probe is accepted within this of the standard, mV (common practice, no source).
   */
  public static final double ORP_OFFSET_GOOD_MV = 20;

  /** The ORP probe is usable up to this offset, mV (checked, secondary). */
  public static final double ORP_OFFSET_MAX_MV = 50;

  private ProbeHealth() {}

  /** Longest time that a failed probe must be good before it counts again, s. */
  public static double recoveryS(ProbeSettings settings) {
    return Probe.RECOVERY * settings.staleS();
  }

  public static Status ph(PhCalibration calibration) {
    return slope(calibration.slopeFraction())
        .orWorse(offset(calibration.offsetMv(), PH_OFFSET_GOOD_MV, PH_OFFSET_MAX_MV));
  }

  /**
   * @param offsetMv added to the raw ORP, mV
   */
  public static Status orp(double offsetMv) {
    return offset(offsetMv, ORP_OFFSET_GOOD_MV, ORP_OFFSET_MAX_MV);
  }

  private static Status slope(double fraction) {
    if (!(fraction >= SLOPE_MIN && fraction <= SLOPE_MAX)) {
      return Status.FAILURE;
    }
    if (fraction < SLOPE_FAIR_MIN) {
      return Status.OUT_OF_SPECIFICATION;
    }
    return fraction < SLOPE_GOOD_MIN || fraction > SLOPE_GOOD_MAX
        ? Status.MAINTENANCE_REQUIRED
        : Status.GOOD;
  }

  private static Status offset(double offsetMv, double goodMv, double maxMv) {
    double size = Math.abs(offsetMv);
    if (!(size <= maxMv)) {
      return Status.FAILURE;
    }
    return size > goodMv ? Status.MAINTENANCE_REQUIRED : Status.GOOD;
  }
}
