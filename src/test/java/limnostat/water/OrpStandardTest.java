package limnostat.water;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class OrpStandardTest {
  /** Nordstrom (1977) [memory] and a handbook's line [checked]; rows [computed]. */
  @ParameterizedTest
  @CsvSource({
    "5, 479.1, 472",
    "10, 467.2, 461",
    "15, 455.1, 450",
    "20, 442.8, 439",
    "25, 430.3, 428",
    "30, 417.6, 417",
    "35, 404.7, 406",
    "40, 391.7, 395"
  })
  void zobell(double t, double nordstrom, double linear) {
    assertEquals(nordstrom, OrpStandard.zobellMv(t), 0.06);
    assertEquals(linear, OrpStandard.zobellLinearMv(t), 1e-9);
  }

  /** Against saturated Ag/AgCl [computed]. */
  @ParameterizedTest
  @CsvSource({"15, 246.1", "20, 238.8", "25, 231.3", "30, 223.6", "35, 215.7"})
  void zobellAgainstSilverChloride(double t, double mv) {
    assertEquals(
        mv,
        ReferenceElectrode.SILVER_CHLORIDE_SATURATED_KCL.fromSheMv(OrpStandard.zobellMv(t), t),
        0.06);
  }

  /** [computed] from the equation [memory]. */
  @ParameterizedTest
  @CsvSource({"4.006, 462.7", "6.865, 293.6"})
  void quinhydrone(double bufferPh, double mv) {
    assertEquals(mv, OrpStandard.quinhydroneMv(25, bufferPh), 0.06);
  }

  /**
   * A maker's tables [checked, secondary], the reference near 3.3 mol/L: °C, pH of the buffer [JIS
   * Z 8802], mV against Ag/AgCl. Probes and references are good to 3 mV each.
   */
  @ParameterizedTest
  @CsvSource({
    "25, 4.006, 257.6",
    "25, 6.86, 89.0",
    "20, 4.00, 262.5",
    "20, 6.88, 95.0",
    "30, 4.01, 253.5",
    "30, 6.85, 82.7"
  })
  void quinhydroneAgreesWithAMaker(double t, double bufferPh, double mv) {
    assertEquals(
        mv,
        ReferenceElectrode.SILVER_CHLORIDE_3_5M_KCL.fromSheMv(
            OrpStandard.quinhydroneMv(t, bufferPh), t),
        6);
  }

  /** Light (1972), ASTM D1498 [memory]. */
  @ParameterizedTest
  @CsvSource("25, 675, 476")
  void light(double t, double againstShe, double againstSilverChloride) {
    assertEquals(againstShe, OrpStandard.lightMv(t));
    assertEquals(
        againstSilverChloride,
        ReferenceElectrode.SILVER_CHLORIDE_SATURATED_KCL.fromSheMv(OrpStandard.lightMv(t), t),
        3);
  }

  @ParameterizedTest
  @CsvSource({"4.9", "40.1"})
  void refusesOutside(double t) {
    assertThrows(OutsideValidityException.class, () -> OrpStandard.zobellMv(t));
    assertThrows(OutsideValidityException.class, () -> OrpStandard.quinhydroneMv(t, 4));
    assertThrows(OutsideValidityException.class, () -> OrpStandard.lightMv(t));
    assertThrows(OutsideValidityException.class, () -> OrpStandard.quinhydroneMv(25, 9.18));
  }
}
