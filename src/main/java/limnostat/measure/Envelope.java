package limnostat.measure;

/**
 * Checks a probe against a model of the water: what the value can be, from what it was and how far
 * it can have moved since. This is a set-membership observer: the bounds move apart with time, and
 * each accepted value draws them in to its tolerance. A value that stays outside has moved as the
 * water cannot, and the probe is doubted. It is trusted again
 *
 * <ul>
 *   <li>once it has moved back, again as the water cannot, to where the water can be,
 *   <li>or once it has moved as water can for a set time: what looked impossible may have been the
 *       end of an older fault, or something that a person did.
 * </ul>
 *
 * A person's act ({@link #forgotten}) ends the doubt at once.
 *
 * @param low lowest value possible from what it was; −infinite: nothing is known
 * @param high highest value possible
 * @param outsideS for how long it has been outside without interruption, s
 * @param doubted whether the probe is doubted
 * @param above whether it had moved up when the doubt began
 * @param waterLow lowest value that the water can have, from the values before the doubt;
 *     meaningless unless doubted
 * @param waterHigh highest such value
 * @param possibleS for how long a doubted probe has moved as water can, s
 */
public record Envelope(
    double low,
    double high,
    double outsideS,
    boolean doubted,
    boolean above,
    double waterLow,
    double waterHigh,
    double possibleS) {

  public static final Envelope START =
      new Envelope(Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY, 0, false, false, 0, 0, 0);

  /**
   * A value outside for this long is not just a slug of other water in the pipe (engineering
   * judgement), s.
   */
  static final double PERSISTENT_S = 1800;

  /**
   * For this long after the flow starts, a probe sees the pipe, the filter and layered water, and
   * not the pool (engineering judgement; a fifth of a turnover of 5 h), s of flow.
   */
  static final double SETTLED_S = 3600;

  /**
   * @param tolerance how far two good values may differ if the water has not moved, in the
   *     quantity's unit
   * @param againUpS a probe doubted for moving up is trusted again after this time, s
   * @param againDownS the same for one that moved down
   */
  record Limits(double tolerance, double againUpS, double againDownS) {}

  /**
   * One scan.
   *
   * @param value the probe's value; only a fresh one counts
   * @param up how far the water can have risen since the last scan
   * @param down how far it can have fallen
   * @param settled whether the probe has seen the pool's water for long enough
   */
  Envelope step(
      Limits limits, Measurement value, double up, double down, boolean settled, double elapsedS) {
    Envelope moved =
        new Envelope(
            low - down,
            high + up,
            outsideS,
            doubted,
            above,
            waterLow - down,
            waterHigh + up,
            doubted ? possibleS + elapsedS : 0);
    return settled && value.fresh() ? moved.seen(limits, value.orElse(0), elapsedS) : moved;
  }

  private Envelope seen(Limits limits, double value, double elapsedS) {
    if (value >= low && value <= high) {
      boolean still = doubted && possibleS < (above ? limits.againUpS : limits.againDownS);
      return new Envelope(
          Math.max(low, value - limits.tolerance),
          Math.min(high, value + limits.tolerance),
          0,
          still,
          above,
          waterLow,
          waterHigh,
          still ? possibleS : 0);
    }
    double forS = outsideS + elapsedS;
    if (forS < PERSISTENT_S) {
      return new Envelope(low, high, forS, doubted, above, waterLow, waterHigh, possibleS);
    }
    // Given enough time the water can be anywhere, so moving further away is not moving back.
    boolean turned = doubted && above == value < low;
    boolean back = turned && value >= waterLow && value <= waterHigh;
    return new Envelope(
        value - limits.tolerance,
        value + limits.tolerance,
        0,
        !back,
        value > high,
        doubted ? waterLow : low,
        doubted ? waterHigh : high,
        0);
  }

  /**
   * Nothing was observed for an unknown time, so the water may be anything. A doubted probe stays
   * doubted.
   */
  Envelope interrupted() {
    return doubted ? this : START;
  }

  /**
   * A person did something that moves the water by up to this much to either side. The doubt ends
   * if that explains it, that is, if the value has moved no further from where the water could be.
   *
   * @param up how far the water may have risen or may still rise, at least 0
   * @param down how far it may have fallen or may still fall
   */
  Envelope explained(double up, double down) {
    double value = (low + high) / 2;
    boolean byThat = above ? value <= waterHigh + up : value >= waterLow - down;
    return doubted && byThat && (above ? up : down) > 0 ? START : this;
  }

  /** A person has handled the probe, or has tested what it measures. */
  Envelope forgotten() {
    return START;
  }
}
