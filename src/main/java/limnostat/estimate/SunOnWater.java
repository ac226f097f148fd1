package limnostat.estimate;

import java.util.OptionalDouble;
import limnostat.measure.Outside;

/**
 * Strength of the sun on the water. It depends on the sun's position, the clouds and the cover. A
 * pyranometer measures the clouds. If there is none or it has failed, a forecast replaces it.
 * Without either, the usual sky is assumed.
 *
 * <p>The shape is the sun's geometry times f/f̄, with f what the clouds leave and f̄ its recent
 * mean. So the filter always learns the sun's loss under the usual sky. Fitting a sensor, its
 * failure or a constant factor in its readings changes neither that loss nor the demand calculated
 * from it. Only clearer and duller hours have an effect.
 *
 * @param shape the sun on the water now, on the scale of {@link Hour#sun}
 * @param fraction share of a clear sky's ultraviolet that the clouds now let through
 * @param usualFraction its recent mean
 * @param usualS amount of sun in this mean, s at a shape of 1
 * @param covered whether the cover is closed, as last read
 * @param coverUnreadS for how long the cover has not been read, s
 * @param measured whether the pyranometer measured the clouds when it was last light
 * @param implausible whether the pyranometer last showed sun at night
 * @param forecast the last forecast; it may have expired
 */
public record SunOnWater(
    double shape,
    double fraction,
    double usualFraction,
    double usualS,
    boolean covered,
    double coverUnreadS,
    boolean measured,
    boolean implausible,
    SunForecast forecast) {

  private static final double DAY_S = 86_400;

  /** Initial state: half-clouded summer days, with the weight of one day (judgement). */
  public static final SunOnWater START =
      new SunOnWater(0, 0.75, 0.75, DAY_S, false, 0, false, false, SunForecast.NONE);

  /**
   * Memory of the usual sky, s at a shape of 1 (engineering judgement): spells of weather last
   * days.
   */
  private static final double USUAL_S = 30 * DAY_S;

  /** No sky is duller than this for long (engineering judgement). */
  private static final double USUAL_MIN = 0.1;

  /** Data read back from a ledger is checked like untrusted input. */
  public SunOnWater {
    requireNumber(shape, 0);
    requireNumber(fraction, 0);
    requireNumber(usualFraction, USUAL_MIN);
    requireNumber(usualS, DAY_S);
  }

  private static void requireNumber(double x, double least) {
    if (!(x >= least && x < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException("no sun: " + x + ", not at least " + least);
    }
  }

  /** Cosine of the zenith angle at 5° of elevation. Below it a horizontal sensor tells little. */
  private static final double LOW_COS_ZENITH = 0.0872;

  /** With the sun more than 6° below the horizon (civil dusk) there is no light to measure ... */
  private static final double NIGHT_COS_ZENITH = -0.1045;

  /** ... so a reading above this is a fault, W/m² (engineering judgement). */
  private static final double NIGHT_MAX_W_M2 = 50;

  /** Less light than this by day is a covered or dead sensor, not a cloud (judgement). */
  private static final double LIGHT_MIN = 0.02;

  /** Clouds beside the sun may add to it (engineering judgement). */
  private static final double LIGHT_MAX = 1.3;

  /** Largest ratio of an hour's sun to the usual one, from any source (judgement). */
  private static final double OVER_USUAL_MAX = 2;

  /**
   * Clouds let through more of the ultraviolet that destroys chlorine than of light: about light's
   * fraction to this power (from memory).
   */
  private static final double ULTRAVIOLET_POWER = 0.7;

  /** Time constant that smooths the readings, s: well below the filter's step of 15 min. */
  private static final double SMOOTH_S = 300;

  /** A reading stands for at most this much time before it, s. */
  private static final double READING_S = 60;

  /**
   * A closed cover is assumed to stay closed for this long, and then to be open. The same applies
   * if it can no longer be read (engineering judgement).
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
    boolean read = outside.solarWM2().isPresent();
    double cosZenith = Sun.cosZenith(unixTimeS, pool.latitudeDeg(), pool.longitudeDeg());
    boolean tellsOfNight = read && cosZenith < NIGHT_COS_ZENITH;
    boolean distrusted =
        tellsOfNight ? outside.solarWM2().getAsDouble() > NIGHT_MAX_W_M2 : implausible;
    OptionalDouble light =
        distrusted ? OptionalDouble.empty() : light(outside.solarWM2(), cosZenith);
    OptionalDouble expected = forecast.at(unixTimeS);
    double readS = Math.min(elapsedS, READING_S);
    double now =
        light.isPresent()
            ? fraction
                + (ultraviolet(light.getAsDouble()) - fraction) * Math.min(1, readS / SMOOTH_S)
            : expected.isPresent() ? ultraviolet(expected.getAsDouble()) : usualFraction;
    double sky = Hour.sun(cosZenith);
    boolean known = light.isPresent() || expected.isPresent();
    double newsS = known ? readS * sky : 0;
    double unreadS = outside.coverClosed().isPresent() ? 0 : coverUnreadS + elapsedS;
    boolean closed = outside.coverClosed().orElse(covered && unreadS <= COVER_S);
    return new SunOnWater(
        closed ? 0 : sky * overUsual(now),
        now,
        Math.max(USUAL_MIN, usualFraction + (now - usualFraction) * newsS / (usualS + newsS)),
        Math.min(USUAL_S, usualS + newsS),
        closed,
        unreadS,
        light.isPresent() || (measured && read && !distrusted && cosZenith < LOW_COS_ZENITH),
        distrusted,
        forecast);
  }

  private static OptionalDouble light(OptionalDouble solarWM2, double cosZenith) {
    if (solarWM2.isEmpty() || cosZenith < LOW_COS_ZENITH) {
      return OptionalDouble.empty();
    }
    double light = solarWM2.getAsDouble() / clearSkyWM2(cosZenith);
    return light < LIGHT_MIN
        ? OptionalDouble.empty()
        : OptionalDouble.of(Math.min(LIGHT_MAX, light));
  }

  /**
   * Irradiance on a horizontal plane under a clear sky, W/m²: 1098 cos z exp(−0.059/cos z),
   * Haurwitz (1945).
   */
  static double clearSkyWM2(double cosZenith) {
    return cosZenith <= 0 ? 0 : 1098 * cosZenith * StrictMath.exp(-0.059 / cosZenith);
  }

  private static double ultraviolet(double light) {
    return StrictMath.pow(light, ULTRAVIOLET_POWER);
  }

  private double overUsual(double fraction) {
    return Math.min(OVER_USUAL_MAX, fraction / usualFraction);
  }

  /** Sun and bathers of the present hour. */
  public Hour now(EstimateSettings pool, double unixTimeS) {
    return new Hour(shape, Hour.people(unixTimeS, pool.longitudeDeg()), measured);
  }

  /**
   * Sun and bathers of a coming hour.
   *
   * @param atUnixS time of that hour, Unix s
   * @param nowUnixS now, Unix s
   */
  public Hour hourAt(EstimateSettings pool, double atUnixS, double nowUnixS) {
    Hour usual = Hour.of(pool, atUnixS);
    if (covered && atUnixS - nowUnixS < COVER_S) {
      return usual.withSun(0, false);
    }
    OptionalDouble expected = forecast.at(atUnixS);
    double clouds = expected.isPresent() ? overUsual(ultraviolet(expected.getAsDouble())) : 1;
    return usual.withSun(usual.sun() * clouds, false);
  }

  public SunOnWater withForecast(SunForecast next) {
    return new SunOnWater(
        shape, fraction, usualFraction, usualS, covered, coverUnreadS, measured, implausible, next);
  }
}
