package limnostat.water;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ElectrolysisTest {
  /** Faraday's law [computed]: A, gaps, efficiency, g/h. */
  @ParameterizedTest
  @CsvSource({
    "1, 1, 1, 1.32280",
    "5, 1, 0.80, 5.291",
    "7, 5, 0.80, 37.04",
    "4.5, 12, 0.75, 53.57",
    "10, 1, 0.90, 11.91"
  })
  void chlorine(double currentA, int gaps, double efficiency, double gH) {
    assertEquals(gH, Electrolysis.chlorineGH(currentA, gaps, efficiency), 5e-4 * gH);
    assertEquals(efficiency, Electrolysis.efficiency(gH, currentA, gaps), 5e-4);
  }

  /** 0.4564 L an ampere-hour and gap at 25 °C, 1 atm; 15.98 L/h at 35 [computed]. */
  @ParameterizedTest
  @CsvSource({"1, 1, 0.4564", "7, 5, 15.98", "35, 1, 15.98"})
  void hydrogen(double currentA, int gaps, double lH) {
    assertEquals(lH, Electrolysis.hydrogenLH(currentA, gaps), 5e-4 * lH);
  }

  /** 0.5 L over still water at 35 A-gaps holds 4 % after 4.5 s [computed; 4 % memory]. */
  @ParameterizedTest
  @CsvSource("7, 5, 0.5, 4.5")
  void flammableWithoutFlow(double currentA, int gaps, double headspaceL, double seconds) {
    assertEquals(seconds, Electrolysis.secondsToFlammable(currentA, gaps, headspaceL), 0.05);
  }

  @ParameterizedTest
  @CsvSource({"-1, 0.8", "5, 1.01", "5, -0.1", "NaN, 0.8"})
  void refusesOutside(double currentA, double efficiency) {
    assertThrows(
        OutsideValidityException.class, () -> Electrolysis.chlorineGH(currentA, 5, efficiency));
  }

  /** Robinson and Stokes [memory], 25 °C: g/L, mS/cm [computed]. */
  @ParameterizedTest
  @CsvSource({
    "0.585, 1.185",
    "1.169, 2.315",
    "2.922, 5.553",
    "5.844, 10.674",
    "3, 5.69",
    "4, 7.48",
    "5, 9.23",
    "6, 10.94"
  })
  void conductivity(double saltGL, double msCm) {
    assertEquals(msCm, Conductivity.ofSaltMsCm(saltGL, 25), 0.01 * msCm);
  }

  /** CRC, 20 °C: 0.5 % by weight 8.2 mS/cm [memory], 5.0 g/L. */
  @ParameterizedTest
  @CsvSource("5.0, 20, 8.2")
  void conductivityAgreesWithAHandbook(double saltGL, double t, double msCm) {
    assertEquals(msCm, Conductivity.ofSaltMsCm(saltGL, t), 0.02 * msCm);
  }

  @ParameterizedTest
  @CsvSource({"0.5, 25", "6.1, 25", "3, 14", "3, 36"})
  void refusesConductivityOutside(double saltGL, double t) {
    assertThrows(OutsideValidityException.class, () -> Conductivity.ofSaltMsCm(saltGL, t));
  }
}
