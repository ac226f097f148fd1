package limnostat.scan;

import limnostat.safety.HardBounds;

/**
 * How long a probe's signal has stood still.
 *
 * @param anchorMv what it is held against, mV
 * @param meanMv mean since, mV
 * @param forS for how long, s
 */
public record Still(double anchorMv, double meanMv, double forS) {
  /** A reading a time step on; what leaves the band begins anew. */
  Still next(double mv, double bandMv, double elapsedS) {
    if (!(Math.abs(mv - anchorMv) <= bandMv) || elapsedS > HardBounds.SCAN_GAP_S) {
      return new Still(mv, mv, 0);
    }
    double nextS = forS + elapsedS;
    double share = nextS > 0 ? elapsedS / nextS : 0;
    return new Still(anchorMv, meanMv + (mv - meanMv) * share, nextS);
  }
}
