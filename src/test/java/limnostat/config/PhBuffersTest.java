package limnostat.config;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Path;
import limnostat.measure.PhCalibration;
import limnostat.water.Nernst;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class PhBuffersTest {
  @TempDir Path folder;

  /** Worked check of water-chemistry 4 [computed]. */
  @Test
  void followsTheWorkedCheck() throws ConfigurationException {
    String text =
        Sample.MINIMAL
            + """
            [ph]
            buffers = [{ ph = 6.865, potential = "5.0 mV", temperature = "77 degF" },
                       { ph = 4.005, potential = "0.171 V", temperature = "25 degC" }]
            """;
    PhCalibration calibration =
        Sample.load(folder, text).configuration().scan().measure().phCalibration();
    assertEquals(58.042, calibration.slopeFraction() * Nernst.slopeMvPerPh(25), 0.001);
    assertEquals(0.981, calibration.slopeFraction(), 0.0005);
    assertEquals(-2.84, calibration.offsetMv(), 0.005);
    assertEquals(7.468, ph(calibration, -30, 25), 0.002);
    assertEquals(7.460, ph(calibration, -30, 30), 0.002);
    assertEquals(7.484, ph(calibration, -30, 15), 0.002);
    assertEquals(6.613, ph(calibration, 20, 30), 0.002);
  }

  private static double ph(PhCalibration calibration, double mv, double temperatureC) {
    return 7
        - (mv - calibration.offsetMv())
            / (calibration.slopeFraction() * Nernst.slopeMvPerPh(temperatureC));
  }

  /** Each buffer is taken at its own temperature: an ideal electrode comes out as one. */
  @Test
  void takesEachBufferAtItsTemperature() {
    PhCalibration calibration =
        PhBuffers.calibration(
            new PhBuffers.Buffer(6.9, 0.1 * Nernst.slopeMvPerPh(15), 15),
            new PhBuffers.Buffer(4.01, 2.99 * Nernst.slopeMvPerPh(30), 30));
    assertEquals(1, calibration.slopeFraction(), 1e-12);
    assertEquals(0, calibration.offsetMv(), 1e-12);
  }

  @Test
  void isIdealWithoutBuffers() throws ConfigurationException {
    assertEquals(
        PhCalibration.IDEAL,
        Sample.load(folder, Sample.MINIMAL).configuration().scan().measure().phCalibration());
  }
}
