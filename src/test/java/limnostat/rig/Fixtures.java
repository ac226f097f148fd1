package limnostat.rig;

import limnostat.estimate.EstimateSettings;
import limnostat.estimate.SlowSettings;
import limnostat.water.ChlorineForm;

/** Settings that many tests share. */
public final class Fixtures {
  /**
   * A salt pool of 50 m³ at 46° N, 8° E: stabiliser 30 mg/L, salt 3400 mg/L, 1 m³ of fresh water a
   * week, demand 2 mg/L a day, free chlorine 2 mg/L.
   */
  public static final EstimateSettings SALT_POOL = saltPool(2);

  private Fixtures() {}

  /** The same with another first guess of free chlorine, mg/L. */
  public static EstimateSettings saltPool(double freeChlorineMgL) {
    return new EstimateSettings(
        50,
        46,
        8,
        SlowSettings.configured(30, 3400, ChlorineForm.SALT_CELL, 1),
        2,
        freeChlorineMgL);
  }
}
