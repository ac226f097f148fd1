package limnostat.plant;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;

class ElectrodeTest {
  private static Water water(double hoclMgL, double ph, double waterC) {
    Water water = new Water(1);
    water.hoclMgL = hoclMgL;
    water.ph = ph;
    water.temperatureC = waterC;
    return water;
  }

  private static double glassMv(GlassElectrode.Settings settings, double ph, double waterC) {
    GlassElectrode glass = new GlassElectrode(settings, new Random(1));
    glass.step(0, water(0.1, ph, waterC));
    return glass.readingMv();
  }

  /** Nernst: 0 mV at pH 7, 59.16 mV a unit at 25 °C, 56.183 at 10 °C [computed]; acid positive. */
  @Test
  void idealGlassFollowsNernst() {
    GlassElectrode.Settings ideal = new GlassElectrode.Settings(0, 1, 0, 0, 0);
    assertEquals(0, glassMv(ideal, 7, 25), 1e-9);
    assertEquals(-59.16, glassMv(ideal, 8, 25), 0.005);
    assertEquals(59.16, glassMv(ideal, 6, 25), 0.005);
    assertEquals(-56.183, glassMv(ideal, 8, 10), 0.005);
  }

  @Test
  void realGlassHasOffsetAndSlope() {
    GlassElectrode.Settings aged = new GlassElectrode.Settings(-8, 0.95, 0, 0, 0);
    assertEquals(-8, glassMv(aged, 7, 25), 1e-9);
    assertEquals(-8 - 0.95 * 59.16, glassMv(aged, 8, 25), 0.005);
  }

  private static final OrpElectrode.Settings PLATINUM =
      new OrpElectrode.Settings(780, 20, 55, -15, 4, 0, 0, 0, 0);

  private static double settledMv(OrpElectrode.Settings settings, Water water) {
    OrpElectrode orp = new OrpElectrode(settings, new Random(1));
    orp.step(0, water);
    return orp.readingMv();
  }

  @Test
  void platinumFollowsTheLogarithmOfHocl() {
    double atMv = settledMv(PLATINUM, water(0.1, 7.5, 25));
    assertEquals(780 + 20 - 55, atMv, 0.1);
    assertEquals(55, settledMv(PLATINUM, water(1, 7.5, 25)) - atMv, 0.1);
    assertEquals(-7.5, settledMv(PLATINUM, water(0.1, 8.0, 25)) - atMv, 1e-9);
  }

  /** After one time constant 63.2 % of a step has come through. */
  @Test
  void platinumLags() {
    OrpElectrode orp = new OrpElectrode(PLATINUM, new Random(1));
    orp.step(0, water(0.01, 7.5, 25));
    double fromMv = orp.readingMv();
    double toMv = settledMv(PLATINUM, water(0.1, 7.5, 25));
    for (int i = 0; i < 24; i++) {
      orp.step(10, water(0.1, 7.5, 25));
    }
    assertEquals(1 - Math.exp(-1), (orp.readingMv() - fromMv) / (toMv - fromMv), 1e-6);
  }

  @Test
  void platinumDriftsAndFouls() {
    OrpElectrode orp =
        new OrpElectrode(
            new OrpElectrode.Settings(780, 20, 55, -15, 4, -0.5, 0.01, 0, 0), new Random(1));
    orp.step(0, water(0.1, 7.5, 25));
    orp.step(30 * 86_400, water(0.1, 7.5, 25));
    // one decade below 1 mg/L: the slope's loss brings the reading up, the drift brings it down
    assertEquals(800 - 15 - 55 * Math.exp(-0.3), orp.readingMv(), 0.1);
  }

  /** The noise has the standard deviations that it was given: √(1 + 4) mV. */
  @Test
  void noiseIsAsLargeAsSaid() {
    Noise noise = new Noise(new Noise.Settings(1, 2, 600), new Random(3));
    int count = 50_000;
    double sum = 0;
    double squares = 0;
    for (int i = 0; i < count; i++) {
      noise.advance(60);
      sum += noise.value();
      squares += noise.value() * noise.value();
    }
    double mean = sum / count;
    assertEquals(0, mean, 0.15);
    double sd = Math.sqrt(squares / count - mean * mean);
    assertTrue(Math.abs(sd - Math.sqrt(5)) < 0.1, "sd " + sd);
  }
}
