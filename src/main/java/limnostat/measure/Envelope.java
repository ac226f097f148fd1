package limnostat.measure;

/**
 * A probe held against a model of the water: what the water can be, by what it was and by how much
 * it can have moved since (a set-membership observer: the bounds move apart with time, and each
 * believed value draws them in to its tolerance). A value that stays outside has moved as the water
 * cannot, and the probe is doubted. It is believed again
 *
 * <ul>
 *   <li>once it has moved back, as the water cannot either, to where the water can be,
 *   <li>or once it has moved as water can for a stated time: what looked impossible may have been
 *       the end of an older fault, or a person's doing;
 * </ul>
 *
 * a person's act ({@link #forgotten}) ends it at once.
 *
 * @param low least that the value can be if it goes on from what it was; −infinite: nothing known
 * @param high most
 * @param outsideS for how long it has been outside without a break, s
 * @param doubted whether the probe is doubted
 * @param above whether it had moved up when it came to be doubted
 * @param waterLow least that the water can be by what was believed before; of no meaning unless
 *     doubted
 * @param waterHigh most
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

  /** Outside for so long is no slug of other water in the pipe (engineering judgement), s. */
  static final double PERSISTENT_S = 1800;

  /**
   * For so long a probe sees the pipe, the filter and layered water, and not the pool (engineering
   * judgement; a fifth of a turnover of 5 h), s of flow.
   */
  static final double SETTLED_S = 3600;

  /**
   * @param tolerance what two sound values may differ by without any move, in the quantity's unit
   * @param againUpS a probe that is doubted as it has moved up is believed after so long, s
   * @param againDownS the same of one that has moved down
   */
  record Limits(double tolerance, double againUpS, double againDownS) {}

  /**
   * One scan.
   *
   * @param value what the probe shows; only a fresh one counts
   * @param up by how much the water can have risen since the last scan
   * @param down by how much it can have fallen
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
    // With time the water can be anywhere: further away is no way back.
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
   * Nobody looked for a time that is not known: the water may be anything. A probe that was doubted
   * stays so.
   */
  Envelope interrupted() {
    return doubted ? this : START;
  }

  /**
   * A person did something that moves the water by so much to either side. A doubt goes where that
   * explains it: where the value has moved no further from where the water could be.
   *
   * @param up by how much the water may have risen, or may rise yet, at least 0
   * @param down by how much it may have fallen
   */
  Envelope explained(double up, double down) {
    double value = (low + high) / 2;
    boolean byThat = above ? value <= waterHigh + up : value >= waterLow - down;
    return doubted && byThat && (above ? up : down) > 0 ? START : this;
  }

  /** A person has had the probe in hand, or has tested what it shows. */
  Envelope forgotten() {
    return START;
  }
}
