package limnostat.season;

import java.util.Optional;
import limnostat.actuate.Outputs;
import limnostat.measure.Signals;
import limnostat.plant.DoserSettings;
import limnostat.plant.Pool;

/**
 * Knows the truth and the future, and feeds as late and as little as possible. The others are
 * compared with it.
 *
 * <p>It plans backwards. It knows the future losses (the pool's survey) and what its output can
 * feed while the pump runs. From these it computes R, the lowest free chlorine from which the rest
 * of the season can stay above the lower edge: {@code R(t) = max(edge, R(t + dt) + loss - most that
 * can be fed)}, but never above the upper edge. It starts to feed at R and stops a little above R.
 */
final class Clairvoyant implements Contestant {
  /** Margin to the band edges, mg/L, for mixing and for errors of the plan. */
  private static final double CLEARANCE_MG_L = 0.15;

  /** How far above R it feeds, mg/L, so that its relay does not chatter. */
  private static final double RUN_MG_L = 0.05;

  /**
   * Share of the output that the plan relies on: a cell may be in cold water, a liquid old, an
   * output off.
   */
  private static final double COUNTED_ON = 0.75;

  private final Pool pool;
  private final Relays relays;
  private final double startUnixS;
  private final double[] leastMgL;
  private boolean feeding;

  Clairvoyant(Site site, Pool pool) {
    this.pool = pool;
    this.relays = new Relays(site.configured());
    this.startUnixS = site.startUnixS();
    this.leastMgL = leastMgL(site);
  }

  private static double[] leastMgL(Site site) {
    double[] lossMgL = site.survey().lossMgL();
    double lowMgL = site.band().lowMgL() + CLEARANCE_MG_L;
    double highMgL = site.band().highMgL() - CLEARANCE_MG_L;
    double mostMgL =
        COUNTED_ON
            * trueOutputGH(site.plant().feeders().chlorine())
            * Survey.BIN_S
            / 3600
            / site.plant().basin().volumeM3();
    double[] leastMgL = new double[lossMgL.length + 1];
    leastMgL[lossMgL.length] = lowMgL;
    for (int bin = lossMgL.length - 1; bin >= 0; bin--) {
      boolean pump = site.pumpRuns(site.startUnixS() + bin * Survey.BIN_S);
      double neededMgL = leastMgL[bin + 1] + lossMgL[bin] - (pump ? mostMgL : 0);
      leastMgL[bin] = StrictMath.max(lowMgL, StrictMath.min(highMgL, neededMgL));
    }
    return leastMgL;
  }

  /** The true output of a new feeder at full duty, g/h. */
  static double trueOutputGH(DoserSettings doser) {
    // Java 17 has no switch over patterns
    if (doser instanceof DoserSettings.SaltCell cell) {
      return cell.labelGH() * cell.outputFactor();
    }
    if (doser instanceof DoserSettings.Liquid liquid) {
      return liquid.labelGH() * liquid.outputFactor();
    }
    DoserSettings.TrichlorTablets tablets = (DoserSettings.TrichlorTablets) doser;
    return tablets.labelGH() * tablets.outputFactor();
  }

  @Override
  public Outputs step(double unixTimeS, double elapsedS, Signals signals, Optional<KitTest> test) {
    relays.see(signals, elapsedS);
    int bin = (int) ((unixTimeS - startUnixS) / Survey.BIN_S) + 1;
    double wantedMgL = leastMgL[StrictMath.min(bin, leastMgL.length - 1)];
    double aboveMgL = pool.truth().meanFreeChlorineMgL() - wantedMgL;
    feeding = aboveMgL < (feeding ? RUN_MG_L : 0);
    return relays.drive(feeding ? 1 : 0, signals, unixTimeS, elapsedS);
  }
}
