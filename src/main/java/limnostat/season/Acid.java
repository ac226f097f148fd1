package limnostat.season;

import limnostat.plant.Pool;

/** Acid poured by a person, if there is no acid feeder. */
final class Acid {
  private static final double DEADBAND_PH = 0.2;

  /**
   * mL of 31.45 % acid per m³ and unit of pH: 8.2 mL/m³ take water of alkalinity 100 and stabiliser
   * 30 from 7.8 to 7.5 [computed, section 8 of the chemistry notes]; a careful person uses a little
   * less.
   */
  private static final double ML_M3_PH = 22;

  private Acid() {}

  /**
   * @param ph pH that the person measured
   */
  static void byHand(Pool pool, double ph, double targetPh, double volumeM3) {
    if (ph > targetPh + DEADBAND_PH) {
      pool.pourAcid(ML_M3_PH * volumeM3 * (ph - targetPh));
    }
  }
}
