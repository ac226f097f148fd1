package limnostat.estimate;

import java.util.OptionalDouble;
import limnostat.measure.Outside;

/**
 * How strong the sun stands on the water: by where it is in the sky, by what the clouds leave of
 * it, and by the cover. Of the clouds tell, in this order, a pyranometer, a forecast, and what
 * those two have said of late; where there was neither ever, the sky counts as clear and the filter
 * learns what the sun takes under the usual sky.
 *
 * <p>The fraction is that of light. Clouds leave somewhat more of the ultraviolet that takes
 * chlorine (from memory), so a cloudy hour is a little underrated.
 *
 * @param shape the sun on the water now, against {@link Estimator#sunShape}
 * @param fraction of a clear sky's sun, now
 * @param usualFraction the same as a mean of the last days
 * @param covered whether the cover is closed, as last read
 * @param coverUnreadS for how long the cover has not been read, s
 * @param implausible whether the pyranometer was last caught showing sun at night
 * @param forecast what was last forecast; it may be over
 */
public record SunOnWater(
    double shape,
    double fraction,
    double usualFraction,
    boolean covered,
    double coverUnreadS,
    boolean implausible,
    SunForecast forecast) {

  public static final SunOnWater START = new SunOnWater(0, 1, 1, false, 0, false, SunForecast.NONE);

  /** Below 5° of height a level plane and its surroundings tell little: cosine of the zenith. */
  private static final double LOW_COS_ZENITH = 0.0872;

  /** With the sun more than 6° down (civil dusk) there is no light to measure ... */
  private static final double NIGHT_COS_ZENITH = -0.1045;

  /** ... so that more than this is a fault, W/m² (engineering judgement). */
  private static final double NIGHT_MAX_W_M2 = 50;

  /** Less than this by day is a covered or dead sensor, not a cloud (engineering judgement). */
  private static final double FRACTION_MIN = 0.02;

  /** Clouds beside the sun may add to it (engineering judgement). */
  private static final double FRACTION_MAX = 1.3;

  /** Time constant of what is read, s: the filter looks at it every five minutes. */
  private static final double SMOOTH_S = 300;

  /** Memory of the usual fraction, s at a sun shape of 1: two summer days (judgement). */
  private static final double USUAL_S = 2 * 86_400.0;

  /** A reading says nothing of more than this time before it, s. */
  private static final double READING_S = 60;

  /**
   * A cover is taken to stay as it is for this long, and then to be open; likewise one that can no
   * longer be read (engineering judgement).
   */
  private static final double COVER_S = 3 * 3600.0;

  /**
   * Time passes.
   *
   * @param unixTimeS now
   * @param elapsedS time since the last step, s
   */
  public SunOnWater step(
      EstimateSettings pool, Outside outside, double unixTimeS, double elapsedS) {
    double cosZenith = Sun.cosZenith(unixTimeS, pool.latitudeDeg(), pool.longitudeDeg());
    boolean tellsOfNight = cosZenith < NIGHT_COS_ZENITH && outside.solarWM2().isPresent();
    boolean distrusted =
        tellsOfNight ? outside.solarWM2().getAsDouble() > NIGHT_MAX_W_M2 : implausible;
    OptionalDouble measured =
        distrusted ? OptionalDouble.empty() : measured(outside.solarWM2(), cosZenith);
    OptionalDouble told = forecast.at(unixTimeS);
    double readS = Math.min(elapsedS, READING_S);
    double now =
        measured.isPresent()
            ? fraction + (measured.getAsDouble() - fraction) * Math.min(1, readS / SMOOTH_S)
            : told.orElse(usualFraction);
    double sky = Estimator.sunShape(pool, unixTimeS);
    boolean known = measured.isPresent() || told.isPresent();
    double learned = known ? (now - usualFraction) * Math.min(1, readS * sky / USUAL_S) : 0;
    double unreadS = outside.coverClosed().isPresent() ? 0 : coverUnreadS + elapsedS;
    boolean closed = outside.coverClosed().orElse(covered && unreadS <= COVER_S);
    return new SunOnWater(
        closed ? 0 : sky * now,
        now,
        usualFraction + learned,
        closed,
        unreadS,
        distrusted,
        forecast);
  }

  private static OptionalDouble measured(OptionalDouble solarWM2, double cosZenith) {
    if (solarWM2.isEmpty() || cosZenith < LOW_COS_ZENITH) {
      return OptionalDouble.empty();
    }
    double fraction = solarWM2.getAsDouble() / clearSkyWM2(cosZenith);
    return fraction < FRACTION_MIN
        ? OptionalDouble.empty()
        : OptionalDouble.of(Math.min(FRACTION_MAX, fraction));
  }

  /**
   * Irradiance of a level plane under a clear sky, W/m²: 1098 cos z exp(−0.059/cos z), Haurwitz
   * (1945).
   */
  static double clearSkyWM2(double cosZenith) {
    return cosZenith <= 0 ? 0 : 1098 * cosZenith * StrictMath.exp(-0.059 / cosZenith);
  }

  /**
   * What the shape will be.
   *
   * @param atUnixS when
   * @param nowUnixS now
   */
  public double shapeAt(EstimateSettings pool, double atUnixS, double nowUnixS) {
    return covered && atUnixS - nowUnixS < COVER_S
        ? 0
        : Estimator.sunShape(pool, atUnixS) * forecast.at(atUnixS).orElse(usualFraction);
  }

  public SunOnWater withForecast(SunForecast next) {
    return new SunOnWater(shape, fraction, usualFraction, covered, coverUnreadS, implausible, next);
  }
}
