package limnostat.actuate;

/**
 * What the outputs do from this scan until the next.
 *
 * @param chlorine 0 or 1 for a relay, 0–1 for a proportional output
 * @param acid 0 or 1 for a relay, 0–1 for a proportional output
 * @param pumpRequest whether the circulation pump is requested to run
 */
public record Outputs(double chlorine, double acid, boolean pumpRequest) {
  /** The safe state. */
  public static final Outputs OFF = new Outputs(0, 0, false);

  public double of(Output output) {
    return switch (output) {
      case CHLORINE -> chlorine;
      case ACID -> acid;
    };
  }
}
