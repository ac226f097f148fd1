package limnostat.plant;

/**
 * Another law of chlorine loss to the sun: first order in all free chlorine, at a rate that falls
 * with the stabiliser, {@code k = k0 / (1 + CYA / c0)}. The course of the day has another shape,
 * and there are hours of shade. It uses none of the speciation in {@link ChlorineLoss}.
 *
 * @param perH k0, at a clear summer noon, mean over the depth, 1/h; 0: use the plain law
 * @param halfMgL c0, stabiliser that halves the rate, mg/L
 * @param power exponent applied to the plain ultraviolet fraction: above 1 a sharp noon peak, below
 *     1 a flat one
 * @param fromHour hour of the solar day before which the pool is in shade
 * @param untilHour hour of the solar day after which the pool is in shade
 * @param inShade share of the rate that remains in shade
 */
public record SunLaw(
    double perH, double halfMgL, double power, double fromHour, double untilHour, double inShade) {
  static final SunLaw PLAIN = new SunLaw(0, 1, 1, 0, 24, 1);

  boolean plain() {
    return perH == 0;
  }

  /** Rate, 1/s. */
  double perS(Water water, double ultravioletFraction, double solarHour) {
    if (ultravioletFraction <= 0) {
      return 0;
    }
    boolean lit = solarHour >= fromHour && solarHour < untilHour;
    return perH
        / 3600
        / (1 + water.cyanuricAcidMgL / halfMgL)
        * StrictMath.pow(ultravioletFraction, power)
        * (lit ? 1 : inShade);
  }
}
