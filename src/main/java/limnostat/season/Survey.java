package limnostat.season;

import java.util.List;
import limnostat.actuate.Outputs;
import limnostat.control.ControlSettings;
import limnostat.plant.Hydraulics;
import limnostat.plant.PlantSettings;
import limnostat.plant.Pool;

/**
 * The chlorine loss of a pool over a season while its free chlorine is kept near the target. It is
 * measured on a copy of the pool with the same weather and people, an output that is always large
 * enough, and acid added by hand once a day.
 *
 * @param lossMgL loss in each {@link #BIN_S}, as a mean over the whole pool, mg/L
 */
@SuppressWarnings("ArrayRecordComponent") // never compared, never passed out of this package
record Survey(double startUnixS, double[] lossMgL) {
  static final double BIN_S = 600;
  private static final int BINS_A_DAY = 144;
  private static final double STEP_S = 60;

  /** How much such an output can raise the pool in a day of pumping, mg/L. */
  private static final double OUTPUT_MG_L_DAY = 12;

  static Survey of(
      PlantSettings plant,
      List<Site.Party> parties,
      ControlSettings control,
      double startUnixS,
      double lengthS) {
    double volumeM3 = plant.basin().volumeM3();
    double labelGH = OUTPUT_MG_L_DAY * volumeM3 / (control.pumpS() / 3600);
    Pool pool = Site.open(plant.withLabelGH(labelGH), parties, startUnixS);
    double[] lossMgL = new double[(int) StrictMath.ceil(lengthS / BIN_S)];
    double lostG = 0;
    boolean asked = plant.hydraulics().pump() instanceof Hydraulics.Pump.OnRequest;
    // Filled above the target while the pump runs, so that the mean over the day is near the
    // target.
    double fillMgL = control.freeChlorineTargetMgL() + 0.4;
    for (int bin = 0; bin < lossMgL.length; bin++) {
      if (bin % BINS_A_DAY == 0) {
        Acid.byHand(pool, pool.truth().ph(), control.phTarget(), volumeM3);
      }
      for (double s = 0; s < BIN_S; s += STEP_S) {
        double unixTimeS = startUnixS + bin * BIN_S + s;
        boolean pump = asked ? control.pumpWanted(unixTimeS) : pool.flows();
        boolean low = pool.truth().meanFreeChlorineMgL() < fillMgL;
        pool.advance(unixTimeS + STEP_S, new Outputs(pump && low ? 1 : 0, 0, pump));
      }
      lossMgL[bin] = (pool.truth().chlorineLostG() - lostG) / volumeM3;
      lostG = pool.truth().chlorineLostG();
    }
    return new Survey(startUnixS, lossMgL);
  }

  /** Mean loss, mg/L per day. */
  double demandMgLDay() {
    double sum = 0;
    for (double loss : lossMgL) {
      sum += loss;
    }
    return sum / lossMgL.length * SeasonSettings.DAY_S / BIN_S;
  }
}
