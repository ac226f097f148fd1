package limnostat.plant;

/**
 * Another law of how the sun takes chlorine: first order in all free chlorine, at a rate that falls
 * with the stabiliser, {@code k = k0 / (1 + CYA / c0)}, with a day of another shape and shade by
 * hours. It has none of the speciation that {@link ChlorineLoss} goes by.
 *
 * @param perH k0, at a clear summer noon, mean over the depth, 1/h; 0: the plain law
 * @param halfMgL c0, stabiliser that halves it, mg/L
 * @param power of the plain day's ultraviolet: above 1 a day with a sharp noon, below 1 a flat one
 * @param fromHour hour of the day by the sun before which the pool lies in shade
 * @param untilHour the same after which it does
 * @param inShade share of the rate that is left in shade
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
