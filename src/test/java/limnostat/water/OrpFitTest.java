package limnostat.water;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class OrpFitTest {
  @ParameterizedTest
  @CsvSource({"7.0, 1, 15", "7.5, 0.04, 25", "7.9, 0.005, 32"})
  void theInverseFindsWhatIsExpected(double ph, double hoclMgL, double t) {
    OrpFit fit = new OrpFit(740, 10, 62, 5);
    OrpFit.Potential potential = fit.expected(hoclMgL, 0, ph, t);
    OrpFit.Hocl hocl = fit.hocl(potential.mv(), 0, ph, t);
    assertEquals(hoclMgL, hocl.mgL(), 1e-9 * hoclMgL);
    assertTrue(hocl.lowMgL() < hoclMgL && hoclMgL < hocl.highMgL());
    // low and high are two standard deviations of the potential away
    double sdMv = potential.sdMv();
    assertEquals(potential.mv() + 2 * sdMv, fit.expected(hocl.highMgL(), 0, ph, t).mv(), 1e-6);
  }

  /** By hand: sd² = 10² + (log10 0.01 × 5)² + (60 × 0.35/ln 10)². */
  @ParameterizedTest
  @CsvSource("0.01, 0.35, 620, 16.828")
  void spread(double hoclMgL, double fraction, double mv, double sdMv) {
    OrpFit.Potential potential = new OrpFit(740, 10, 60, 5).expected(hoclMgL, fraction, 7.5, 25);
    assertEquals(mv, potential.mv(), 1e-9);
    assertEquals(sdMv, potential.sdMv(), 1e-3);
  }

  /** Before any test it is what the scan begins with. */
  @ParameterizedTest
  @CsvSource({"1, 7.2, 20", "0.04, 7.7, 30"})
  void beginsAsTheScanDoes(double hoclMgL, double ph, double t) {
    assertEquals(
        Orp.expectedMv(hoclMgL, ph, t), OrpFit.START.expected(hoclMgL, 0.35, ph, t).mv(), 1e-9);
  }

  @ParameterizedTest
  @CsvSource({"0, 10", "-50, 10", "NaN, 10", "50, -1", "50, NaN"})
  void refusesWhatIsNoFit(double slopeMv, double sdMv) {
    assertThrows(IllegalArgumentException.class, () -> new OrpFit(700, sdMv, slopeMv, 5));
  }
}
