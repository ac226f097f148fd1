package limnostat.measure;

/**
 * How far the water itself can have moved since the last scan. All are at least 0, and infinite if
 * nothing is known.
 *
 * @param warmerC warmer by sun and air, °C
 * @param heatedC warmer by a heater, while water flows, °C
 * @param colderC colder, °C
 * @param phUp pH up by what was fed and by the water itself
 * @param phAired pH up further while water flows
 * @param phDown pH down by what was fed and by the water itself
 */
public record Moves(
    double warmerC, double heatedC, double colderC, double phUp, double phAired, double phDown) {
  private static final double ANY = Double.POSITIVE_INFINITY;

  /** Nothing is known, so no value contradicts it. */
  public static final Moves UNKNOWN = new Moves(ANY, ANY, ANY, ANY, ANY, ANY);
}
