package limnostat.estimate;

import java.util.List;
import java.util.OptionalDouble;

/**
 * Forecast of the sun as a fraction of a clear sky's, hour by hour without gaps.
 *
 * @param fromUnixS start of the first hour, Unix s
 * @param clearSkyFractions one per hour, each 0 to 1.2 of a clear sky's sun; at most 72
 */
public record SunForecast(double fromUnixS, List<Double> clearSkyFractions) {
  public static final SunForecast NONE = new SunForecast(0, List.of());

  /** Beyond three days a forecast says no more than the season (engineering judgement). */
  public static final int HOURS_MAX = 72;

  /** Clouds beside the sun may add to it (engineering judgement). */
  public static final double FRACTION_MAX = 1.2;

  private static final double HOUR_S = 3600;

  public SunForecast {
    clearSkyFractions = List.copyOf(clearSkyFractions);
    if (clearSkyFractions.size() > HOURS_MAX || !Double.isFinite(fromUnixS)) {
      throw new IllegalArgumentException("no forecast of at most " + HOURS_MAX + " hours");
    }
    for (double fraction : clearSkyFractions) {
      if (!(fraction >= 0 && fraction <= FRACTION_MAX)) {
        throw new IllegalArgumentException("no fraction of a clear sky: " + fraction);
      }
    }
  }

  /** End of the last hour, Unix s. */
  public double untilUnixS() {
    return fromUnixS + HOUR_S * clearSkyFractions.size();
  }

  /** The fraction at a time; empty outside the forecast. */
  OptionalDouble at(double unixTimeS) {
    double hour = StrictMath.floor((unixTimeS - fromUnixS) / HOUR_S);
    return hour >= 0 && hour < clearSkyFractions.size()
        ? OptionalDouble.of(clearSkyFractions.get((int) hour))
        : OptionalDouble.empty();
  }
}
