package limnostat.measure;

import java.util.OptionalDouble;

/**
 * What the raw potential of an electrode looks like. It names a fault that the range or the freeze
 * test has found. On its own it is not a fault, as a glass electrode at pH 7 also gives 0 mV.
 */
final class Wiring {
  /** A shorted electrode gives only the amplifier's own offset, mV (engineering judgement). */
  private static final double SHORT_MV = 5;

  /**
   * More than platinum can give against silver chloride. Water itself is oxidised at 1.23 V against
   * a hydrogen electrode (standard potential), and some 200 mV less against silver chloride. An
   * open high-impedance input drifts past this to a rail.
   */
  static final double PLATINUM_MOST_MV = 1200;

  /**
   * More than a glass electrode gives from pH 0 to 14, 7 × 62 mV plus its offset (water-chemistry
   * 4).
   */
  static final double GLASS_MOST_MV = 500;

  private Wiring() {}

  static Plausibility of(OptionalDouble mv, double mostMv) {
    double size = Math.abs(mv.orElse(Double.NaN));
    return size > mostMv
        ? Plausibility.OPEN
        : size <= SHORT_MV ? Plausibility.SHORT : Plausibility.RANGE;
  }
}
