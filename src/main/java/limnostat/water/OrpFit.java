package limnostat.water;

/**
 * What is known about one ORP electrode: E = level + slope log10 [HOCl] − (RT ln 10/2F)(pH − 7.5).
 *
 * <p>No published slope was verified; 30–90 mV per decade is common practice without a source. Two
 * identical electrodes have differed by more than 200 mV in the same water (James, Copeland and
 * Lytle, US EPA), so any result from {@link #START} is a guess.
 *
 * @param levelMv at 1 mg/L HOCl (as Cl2) and pH 7.5, mV
 * @param levelSdMv its standard deviation, mV
 * @param slopeMv mV per decade of HOCl, above 0
 * @param slopeSdMv its standard deviation, mV per decade
 */
public record OrpFit(double levelMv, double levelSdMv, double slopeMv, double slopeSdMv) {
  private static final Validity SLOPE =
      new Validity("ORP slope", 5, 120, "mV a decade", "fit it again; 30 to 90 is common practice");

  /**
   * The fit before any test at the site: an engineering judgement for the level, and a quarter of
   * the width of the usual 30–90 mV (common practice) as the slope's deviation.
   */
  public static final OrpFit START = new OrpFit(Orp.LEVEL_MV, 40, Orp.SLOPE_MV, 15);

  public OrpFit {
    SLOPE.check(slopeMv);
    if (!(levelSdMv >= 0 && slopeSdMv >= 0)) {
      throw new IllegalArgumentException(
          "standard deviations of an ORP fit are "
              + levelSdMv
              + " and "
              + slopeSdMv
              + " mV; none can be below 0");
    }
  }

  /**
   * An expected potential.
   *
   * @param sdMv one standard deviation
   */
  public record Potential(double mv, double sdMv) {}

  /**
   * HOCl inferred from a potential, mg/L as Cl2. About 95 % of values lie between low and high (two
   * standard deviations of its logarithm).
   */
  public record Hocl(double mgL, double lowMgL, double highMgL) {}

  /**
   * What the electrode should show.
   *
   * @param hoclMgL mg/L as Cl2; below 10⁻⁴ it counts as 10⁻⁴
   * @param hoclSdFraction its relative standard deviation, 0–1
   * @param ph 5–10
   * @param temperatureC 0–40 °C
   */
  public Potential expected(double hoclMgL, double hoclSdFraction, double ph, double temperatureC) {
    double decades = StrictMath.log10(Math.max(hoclMgL, Orp.HOCL_FLOOR_MG_L));
    double sdDecades = hoclSdFraction / StrictMath.log(10);
    return new Potential(
        levelMv + slopeMv * decades - phMv(ph, temperatureC),
        root(levelSdMv, decades * slopeSdMv, slopeMv * sdDecades));
  }

  /**
   * The inverse: the HOCl that explains a potential.
   *
   * @param orpMv against the electrode's own reference, like the level
   * @param orpSdMv standard deviation of the reading, mV
   */
  public Hocl hocl(double orpMv, double orpSdMv, double ph, double temperatureC) {
    double decades = (orpMv + phMv(ph, temperatureC) - levelMv) / slopeMv;
    double sd = root(levelSdMv, decades * slopeSdMv, orpSdMv) / slopeMv;
    return new Hocl(
        StrictMath.pow(10, decades),
        StrictMath.pow(10, decades - 2 * sd),
        StrictMath.pow(10, decades + 2 * sd));
  }

  private static double phMv(double ph, double temperatureC) {
    Validity.PH.check(ph);
    Validity.WATER_C.check(temperatureC);
    return Orp.theoreticalSlopeMv(temperatureC) * (ph - 7.5);
  }

  private static double root(double a, double b, double c) {
    return StrictMath.sqrt(a * a + b * b + c * c);
  }
}
