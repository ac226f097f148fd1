package limnostat.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.OptionalDouble;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class PhElectrodeTest {
  /**
   * Worked check, computed by hand from pH = 7 − (E − E0)/(s S): buffers +5.0 mV at 6.865 and
   * +171.0 mV at 4.005, 25 °C (buffer values JIS Z 8802, NIST; three decimals from memory) give
   * 98.1 % slope and −2.84 mV.
   */
  @ParameterizedTest
  @CsvSource({
    "-30.0, 25, 7.468",
    "-30.0, 30, 7.460",
    "-30.0, 15, 7.484",
    "20.0, 30, 6.613",
    "5.0, 25, 6.865",
    "171.0, 25, 4.005"
  })
  void workedCheck(double mv, double temperatureC, double ph) {
    PhCalibration calibration = new PhCalibration(-2.835, 58.042 / 59.159);
    assertEquals(
        ph, Measure.ph(calibration, OptionalDouble.of(mv), temperatureC).getAsDouble(), 0.002);
  }

  /** Ideal electrode: 0 mV at pH 7, −59.16 mV a unit at 25 °C, acid positive. */
  @ParameterizedTest
  @CsvSource({"0, 7", "-59.16, 8", "177.48, 4"})
  void idealElectrode(double mv, double ph) {
    assertEquals(
        ph, Measure.ph(PhCalibration.IDEAL, OptionalDouble.of(mv), 25).getAsDouble(), 1e-3);
  }
}
