package limnostat.water;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A meter manual and a glossary table [checked, secondary]. */
class ReferenceElectrodeTest {
  @ParameterizedTest
  @CsvSource({
    "SILVER_CHLORIDE_3M_KCL, 5, 221",
    "SILVER_CHLORIDE_3M_KCL, 10, 217",
    "SILVER_CHLORIDE_3M_KCL, 15, 214",
    "SILVER_CHLORIDE_3M_KCL, 20, 210",
    "SILVER_CHLORIDE_3M_KCL, 25, 207",
    "SILVER_CHLORIDE_3M_KCL, 30, 203",
    "SILVER_CHLORIDE_3M_KCL, 35, 200",
    "SILVER_CHLORIDE_3M_KCL, 40, 196",
    "SILVER_CHLORIDE_3_5M_KCL, 15, 212",
    "SILVER_CHLORIDE_3_5M_KCL, 25, 205",
    "SILVER_CHLORIDE_3_5M_KCL, 35, 197",
    "SILVER_CHLORIDE_SATURATED_KCL, 15, 209",
    "SILVER_CHLORIDE_SATURATED_KCL, 25, 199",
    "SILVER_CHLORIDE_SATURATED_KCL, 35, 189",
    "SATURATED_CALOMEL, 15, 251.1",
    "SATURATED_CALOMEL, 20, 247.9",
    "SATURATED_CALOMEL, 25, 244.4",
    "SATURATED_CALOMEL, 30, 241.1",
    "SATURATED_CALOMEL, 35, 237.6",
    "SILVER_CHLORIDE_3M_KCL, 22.5, 208.5", // half-way
  })
  void againstShe(ReferenceElectrode electrode, double temperatureC, double mv) {
    assertEquals(mv, electrode.mvAgainstShe(temperatureC), 1e-9);
    assertEquals(700 + mv, electrode.toSheMv(700, temperatureC), 1e-9);
    assertEquals(700, electrode.fromSheMv(700 + mv, temperatureC), 1e-9);
  }

  /** Other sources, 25 °C [checked, secondary]: 210 (3 mol/L), 197-199 (saturated): ±3 mV. */
  @ParameterizedTest
  @CsvSource({"SILVER_CHLORIDE_3M_KCL, 210", "SILVER_CHLORIDE_SATURATED_KCL, 198"})
  void agreesWithOthers(ReferenceElectrode electrode, double mv) {
    assertEquals(mv, electrode.mvAgainstShe(25), 3);
  }

  @ParameterizedTest
  @CsvSource({
    "SILVER_CHLORIDE_3M_KCL, 4.9",
    "SILVER_CHLORIDE_3M_KCL, 40.1",
    "SATURATED_CALOMEL, 14.9",
    "SATURATED_CALOMEL, 35.1",
    "SATURATED_CALOMEL, NaN"
  })
  void refusesBeyondTheTable(ReferenceElectrode electrode, double temperatureC) {
    assertThrows(OutsideValidityException.class, () -> electrode.mvAgainstShe(temperatureC));
  }
}
