package limnostat.measure;

/**
 * By how much the water itself can have moved since the last scan; all at least 0, infinite where
 * nothing is known.
 *
 * @param warmerC warmer by sun and air, °C
 * @param heatedC warmer by a heater, while water flows, °C
 * @param colderC colder, °C
 * @param phUp pH up by what was fed and by itself
 * @param phAired pH up further while water flows
 * @param phDown pH down, likewise
 */
public record Moves(
    double warmerC, double heatedC, double colderC, double phUp, double phAired, double phDown) {
  private static final double ANY = Double.POSITIVE_INFINITY;

  /** Nothing is known, so nothing contradicts. */
  public static final Moves UNKNOWN = new Moves(ANY, ANY, ANY, ANY, ANY, ANY);
}
