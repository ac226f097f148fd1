package limnostat.water;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class OrpTest {
  /**
   * The theoretical potential of HOCl + H⁺ + 2e⁻ = Cl⁻ + H2O with E0 1.482 V (CRC; from memory), 25
   * °C, 100 mg/L chloride: 1206.9 mV at HOCl 1, pH 7.0; 1192.1 at 7.5; 1177.3 at 8.0; at pH 7.5
   * 1162.5 at HOCl 0.1 and 1132.9 at 0.01. Its slopes are what is used here.
   */
  @ParameterizedTest
  @CsvSource({
    "1192.1, 1162.5",
    "1162.5, 1132.9", // a decade of HOCl
    "1206.9, 1177.3" // a pH unit
  })
  void theoreticalSlope(double aboveMv, double belowMv) {
    assertEquals(aboveMv - belowMv, Orp.theoreticalSlopeMv(25), 0.1);
  }

  /** Platinum probes in pools read about 600–800 mV (from memory). */
  @Test
  void ordinaryPoolsReadWhatProbesRead() {
    double stabilised = Orp.expectedMv(Cyanurate.hypochlorousAcidMgL(3, 30, 7.5, 25), 7.5, 25);
    double plain = Orp.expectedMv(Cyanurate.hypochlorousAcidMgL(1, 0, 7.5, 25), 7.5, 25);
    assertEquals(700, stabilised, 5);
    assertEquals(755, plain, 10);
  }

  @Test
  void ordersAsTheFieldStudySays() {
    // Bastian and Brondum (2009), Public Health Rep. 124:255: ORP falls with more stabiliser,
    // higher pH, less chlorine.
    double base = Orp.expectedMv(Cyanurate.hypochlorousAcidMgL(3, 30, 7.5, 25), 7.5, 25);
    assertEquals(
        1,
        Math.signum(base - Orp.expectedMv(Cyanurate.hypochlorousAcidMgL(3, 60, 7.5, 25), 7.5, 25)));
    assertEquals(
        1,
        Math.signum(base - Orp.expectedMv(Cyanurate.hypochlorousAcidMgL(3, 30, 7.9, 25), 7.9, 25)));
    assertEquals(
        1,
        Math.signum(base - Orp.expectedMv(Cyanurate.hypochlorousAcidMgL(2, 30, 7.5, 25), 7.5, 25)));
  }

  /** E0 1.482 V [memory, CRC]: HOCl mg/L, pH, chloride mg/L, mV against SHE, 25 °C [computed]. */
  @ParameterizedTest
  @CsvSource({
    "1, 7.0, 100, 1206.9",
    "1, 7.5, 100, 1192.1",
    "0.1, 7.5, 100, 1162.5",
    "0.01, 7.5, 100, 1132.9",
    "0.043, 7.5, 1820, 1114.4",
    "1, 8.0, 100, 1177.3"
  })
  void theoreticalPotential(double hoclMgL, double ph, double chlorideMgL, double mv) {
    assertEquals(mv, Orp.theoreticalMv(hoclMgL, ph, chlorideMgL, 25), 0.5);
  }
}
