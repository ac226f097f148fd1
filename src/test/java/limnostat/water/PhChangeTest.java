package limnostat.water;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class PhChangeTest {
  /** 3500 mg/L of salt are 0.06 mol/L; fresh water has 0.01. */
  private static final double[] IONIC_MOL_L = {0.01, 0.03, 0.06};

  /**
   * Against the whole charge balance of {@link BufferedWater} (Plummer and Busenberg, O'Brien and
   * others): within 15 %.
   */
  @Test
  void theCapacityIsThatOfTheChargeBalance() {
    for (double ionic : IONIC_MOL_L) {
      for (double alkalinity : new double[] {60, 100, 180}) {
        for (double cyanuric : new double[] {0, 30, 80}) {
          for (double ph = 6.8; ph <= 8.2; ph += 0.2) {
            BufferedWater water = BufferedWater.of(alkalinity, ph, 0, cyanuric, 25, ionic);
            double exact = (water.acidToEqL(ph - 0.01) - water.acidToEqL(ph + 0.01)) / 0.02;
            double here = PhChange.capacityEqL(alkalinity, cyanuric, ph);
            assertEquals(1, here / exact, 0.15, alkalinity + " " + cyanuric + " " + ph);
          }
        }
      }
    }
  }

  /**
   * 6.9 mL/m³ of 31.45 % acid (10.01 mol/L) take water of alkalinity 100 from 7.8 to 7.5, computed
   * in the notes on water chemistry, section 8: 0.069 eq/m³ for 0.3.
   */
  @Test
  void aDoseOfAcidByThatCapacity() {
    double eqL = 6.9 * 10.01 / 1e6;
    assertEquals(0.3, eqL / PhChange.capacityEqL(100, 0, 7.65), 0.04);
  }

  /**
   * Where stabiliser explains all of the alkalinity a fifth is taken for carbonate all the same.
   */
  @Test
  void isNeverNothing() {
    double stabiliserAlone = PhChange.capacityEqL(1e-9, 200, 7.5);
    double carbonate = PhChange.capacityEqL(50, 200, 7.5) - stabiliserAlone;
    assertEquals(PhChange.capacityEqL(10, 0, 7.5), carbonate, 1e-9);
    assertEquals(PhChange.capacityEqL(100, 30, 6), PhChange.capacityEqL(100, 30, 3), 0);
    assertEquals(PhChange.capacityEqL(100, 30, 9), PhChange.capacityEqL(100, 30, 12), 0);
  }

  /** Water that loses carbon dioxide at that speed rises no faster, whatever it holds. */
  @Test
  void outgassingStaysBelowTheFastestRise() {
    double perDay = PhChange.risePerS(true) * 86_400;
    assertEquals(3 / Math.log(10), perDay, 1e-12);
    assertEquals(1 / Math.log(10), PhChange.risePerS(false) * 86_400, 1e-12);
    for (double alkalinity : new double[] {40, 100, 200}) {
      for (double cyanuric : new double[] {0, 50}) {
        for (double ph = 6.6; ph <= 8; ph += 0.2) {
          BufferedWater water = BufferedWater.of(alkalinity, ph, 0, cyanuric, 25, 0.03);
          double dioxide = water.carbonDioxideAtm() / Math.pow(10, Carbonates.pkHenry(25)); // mol/L
          double days = 0.002;
          double rise = water.withCarbon(water.carbonMolL() - 3 * days * dioxide).ph() - water.ph();
          assertTrue(rise > 0 && rise < perDay * days * 1.01, ph + ": " + rise);
        }
      }
    }
  }

  /** 8 mg/L of chlorine spent are 0.11 meq/L: a fall of less than half of the bound in a day. */
  @Test
  void spentChlorineStaysBelowTheFastestFall() {
    BufferedWater water = BufferedWater.of(100, 7.5, 8, 30, 25, 0.03);
    double fall = water.ph() - water.chlorineSpent(8).ph();
    assertTrue(fall > 0.1 && fall < 0.5 * 86_400 * PhChange.fallPerS(), "" + fall);
    assertEquals(1.2, 86_400 * PhChange.fallPerS(), 1e-9);
  }
}
