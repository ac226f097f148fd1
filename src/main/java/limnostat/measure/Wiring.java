package limnostat.measure;

import java.util.OptionalDouble;

/**
 * What the potential of an electrode as wired looks like. It names a fault that the range or the
 * freeze test has found; by itself it is none, as a glass electrode at pH 7 gives 0 mV too.
 */
final class Wiring {
  /**
   * A shorted electrode gives nothing but the amplifier's own offset, mV (engineering judgement).
   */
  private static final double SHORT_MV = 5;

  /**
   * More than platinum can give against silver chloride: water itself is oxidised at 1.23 V against
   * a hydrogen electrode (standard potential), some 200 mV less against silver chloride. An open
   * input of high impedance drifts past it to a rail.
   */
  static final double PLATINUM_MOST_MV = 1200;

  /** More than glass gives from pH 0 to 14, 7 × 62 mV, and its offset (water-chemistry 4). */
  static final double GLASS_MOST_MV = 500;

  private Wiring() {}

  static Plausibility of(OptionalDouble mv, double mostMv) {
    double size = Math.abs(mv.orElse(Double.NaN));
    return size > mostMv
        ? Plausibility.OPEN
        : size <= SHORT_MV ? Plausibility.SHORT : Plausibility.RANGE;
  }
}
