package limnostat.scan;

import limnostat.safety.HardBounds;

/**
 * How long a probe's signal has been steady.
 *
 * @param anchorMv value that it is compared with, mV
 * @param meanMv mean since it became steady, mV
 * @param forS for how long, s
 */
public record Still(double anchorMv, double meanMv, double forS) {
  /** Adds a reading one time step later; a reading outside the band starts again. */
  Still next(double mv, double bandMv, double elapsedS) {
    if (!(Math.abs(mv - anchorMv) <= bandMv) || elapsedS > HardBounds.SCAN_GAP_S) {
      return new Still(mv, mv, 0);
    }
    double nextS = forS + elapsedS;
    double share = nextS > 0 ? elapsedS / nextS : 0;
    return new Still(anchorMv, meanMv + (mv - meanMv) * share, nextS);
  }
}
