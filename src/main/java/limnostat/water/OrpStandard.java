package limnostat.water;

/**
 * Solutions of known potential, against SHE. Accept a pool probe within 15–20 mV of them (common
 * practice, no source).
 */
public final class OrpStandard {
  private static final Validity ZOBELL_C =
      new Validity("ZoBell solution", 5, 40, "degC", "bring it to room temperature");
  private static final Validity QUINHYDRONE_C =
      new Validity("quinhydrone solution", 15, 35, "degC", "bring it to room temperature");
  private static final Validity QUINHYDRONE_PH =
      new Validity("buffer for quinhydrone", 3.5, 7.5, "", "it decays in alkali; use pH 4 or 7");
  private static final Validity LIGHT_C =
      new Validity("Light's solution", 24, 26, "degC", "its potential is known at 25 degC only");

  private OrpStandard() {}

  /**
   * ZoBell, mV: 430.28 − 2.5157 (t−25) − 0.0037979 (t−25)², Nordstrom (1977; from memory). A
   * handbook's straight line, {@link #zobellLinearMv}, is up to 7 mV lower, at 5 °C.
   *
   * @param temperatureC 5–40 °C
   */
  public static double zobellMv(double temperatureC) {
    double d = ZOBELL_C.check(temperatureC) - 25;
    return 430.28 - 2.5157 * d - 0.0037979 * d * d;
  }

  /** ZoBell, mV: 428 − 2.2 (t−25), a handbook of environmental analysis. 5–40 °C. */
  public static double zobellLinearMv(double temperatureC) {
    return 428 - 2.2 * (ZOBELL_C.check(temperatureC) - 25);
  }

  /**
   * Quinhydrone in a buffer, mV: 699.7 − 0.74 (t−25) − S(t) pH (from memory).
   *
   * @param temperatureC 15–35 °C
   * @param bufferPh pH of the buffer at that temperature, 3.5–7.5
   */
  public static double quinhydroneMv(double temperatureC, double bufferPh) {
    QUINHYDRONE_C.check(temperatureC);
    QUINHYDRONE_PH.check(bufferPh);
    return 699.7 - 0.74 * (temperatureC - 25) - Nernst.slopeMvPerPh(temperatureC) * bufferPh;
  }

  /** Light's solution, mV: 675 at 25 °C (Light 1972; ASTM D1498; from memory). 24–26 °C. */
  public static double lightMv(double temperatureC) {
    LIGHT_C.check(temperatureC);
    return 675;
  }
}
