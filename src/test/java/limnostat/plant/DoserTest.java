package limnostat.plant;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import limnostat.measure.Role;
import limnostat.measure.Signal;
import org.junit.jupiter.api.Test;

class DoserTest {
  private static final Noise.Settings SILENT = new Noise.Settings(0, 0, 1);

  private static Water line(double saltMgL, double waterC) {
    Water water = new Water(0.05);
    water.saltMgL = saltMgL;
    water.temperatureC = waterC;
    return water;
  }

  private static Cell cell(double labelGH, double factor) {
    return new Cell(
        new DoserSettings.SaltCell(labelGH, 5, 0.8, factor, 28, 0),
        new Noise(SILENT, new Random(1)));
  }

  private static double amperes(Cell cell) {
    return ((Signal.Analog) cell.signals().get(Role.CELL_A)).value();
  }

  /** Faraday: 5 A, 1 gap, 0.80 = 5.291 g/h; 7 A, 5, 0.80 = 37.04; 4.5 A, 12, 0.75 = 53.57. */
  @Test
  void cellGivesWhatFaradayAllows() {
    assertEquals(5.291, Cell.chlorineGH(5, 1, 0.80), 0.001);
    assertEquals(37.04, Cell.chlorineGH(7, 5, 0.80), 0.01);
    assertEquals(53.57, Cell.chlorineGH(4.5, 12, 0.75), 0.01);
  }

  @Test
  void cellGivesItsLabelTimesItsOwnFactor() {
    assertEquals(20, cell(20, 1).feed(3600, 1, true, line(3500, 25)).chlorineG(), 1e-9);
    assertEquals(15, cell(20, 0.75).feed(3600, 1, true, line(3500, 25)).chlorineG(), 1e-9);
    assertEquals(5, cell(20, 1).feed(3600, 0.25, true, line(3500, 25)).chlorineG(), 1e-9);
  }

  /** A tenth in the first 1000 h at full current, as exp(-0.1). */
  @Test
  void cellAgesWithUse() {
    Cell worn =
        new Cell(
            new DoserSettings.SaltCell(20, 5, 0.8, 1, 28, 0.1), new Noise(SILENT, new Random(1)));
    worn.feed(1000 * 3600, 0, true, line(3500, 25));
    assertEquals(20, worn.feed(3600, 1, true, line(3500, 25)).chlorineG(), 0.01);
    worn.feed(1000 * 3600, 1, true, line(3500, 25));
    assertEquals(20 * Math.exp(-0.1), worn.feed(3600, 1, true, line(3500, 25)).chlorineG(), 0.01);
  }

  @Test
  void cellGivesLessInColdAndInWeakWater() {
    double nominalG = cell(20, 1).feed(3600, 1, true, line(3500, 25)).chlorineG();
    assertTrue(cell(20, 1).feed(3600, 1, true, line(3500, 12)).chlorineG() < 0.95 * nominalG);
    assertTrue(cell(20, 1).feed(3600, 1, true, line(1500, 25)).chlorineG() < 0.85 * nominalG);
  }

  /** The supply runs into its limit: current falls, voltage does not rise above 28 V. */
  @Test
  void cellCurrentTellsWeakWater() {
    Cell strong = cell(20, 1);
    strong.feed(60, 1, true, line(3500, 25));
    Cell weak = cell(20, 1);
    weak.feed(60, 1, true, line(1000, 25));
    assertEquals(20 / (1.3228 * 5 * 0.8), amperes(strong), 0.001);
    assertTrue(amperes(weak) < 0.6 * amperes(strong));
    assertEquals(28, ((Signal.Analog) weak.signals().get(Role.CELL_V)).value(), 1e-9);
  }

  /** 12.5 % trade: 8.0 mL a mg/L and m³, so 1 L brings 125 g; then the strength decays. */
  @Test
  void liquidWeakensAndRunsOut() {
    LiquidFeeder feeder = new LiquidFeeder(new DoserSettings.Liquid(125, 12.5, 1, 20, 0.01));
    Water line = line(500, 25);
    assertEquals(125, feeder.feed(3600, 1, true, line).chlorineG(), 0.1);
    feeder.feed(30 * 86_400, 0, true, line);
    assertEquals(125 * Math.exp(-0.3), feeder.feed(3600, 1, true, line).chlorineG(), 0.1);
    assertEquals(new Signal.Contact(false), feeder.signals().get(Role.TANK_LOW));
    feeder.feed(17 * 3600, 1, true, line);
    assertEquals(new Signal.Contact(true), feeder.signals().get(Role.TANK_LOW));
    feeder.feed(2 * 3600, 1, true, line);
    assertEquals(0, feeder.feed(3600, 1, true, line).chlorineG(), 1e-9);
  }

  /**
   * Trichlor: +0.607 mg/L of stabiliser a mg/L of free chlorine [computed]; nothing without flow.
   */
  @Test
  void tabletsBringStabiliser() {
    Tablets tablets = new Tablets(new DoserSettings.TrichlorTablets(10, 1, 1000));
    Fed fed = tablets.feed(3600, 1, true, line(0, 25));
    assertEquals(10, fed.chlorineG(), 1e-9);
    assertEquals(6.07, fed.cyanuricAcidG(), 1e-9);
    assertEquals(Fed.NOTHING, tablets.feed(3600, 1, false, line(0, 25)));
  }

  /** 19.97 mL of 31.45 % a m³ takes 10 mg/L of alkalinity [computed]. */
  @Test
  void acidTakesAlkalinity() {
    AcidFeeder acid = new AcidFeeder(new AcidFeeder.Settings(19.97, 10.01, 1000));
    Fed fed = acid.feed(3600, 1);
    assertEquals(-10, fed.alkalinityMol() * 50.0435, 0.02);
    assertEquals(19.97, acid.givenMl(), 1e-9);
  }
}
