package limnostat.measure;

import java.util.OptionalDouble;

/**
 * When a probe was calibrated, and for how long the calibration is valid.
 *
 * @param atUnixS start of that day, Unix s; empty: not configured, and then never due
 * @param longestS how old it may become, s
 */
public record CalibrationAge(OptionalDouble atUnixS, double longestS) {
  public static final CalibrationAge NOT_TOLD = new CalibrationAge(OptionalDouble.empty(), 0);

  /** A date up to a day ahead can be correct in another time zone, so it is no typing error. */
  private static final double DAY_S = 86_400;

  /**
   * @param unixTimeS now; empty while the clock is not trusted, and then nothing is due
   */
  boolean due(OptionalDouble unixTimeS) {
    return atUnixS.isPresent()
        && unixTimeS.isPresent()
        && (unixTimeS.getAsDouble() - atUnixS.getAsDouble() > longestS
            || ahead(unixTimeS.getAsDouble()));
  }

  /** Whether the date is in the future, which would silence the reminder. */
  private boolean ahead(double unixTimeS) {
    return atUnixS.isPresent() && atUnixS.getAsDouble() > unixTimeS + DAY_S;
  }
}
