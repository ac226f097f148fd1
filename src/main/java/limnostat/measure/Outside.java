package limnostat.measure;

import java.util.Optional;
import java.util.OptionalDouble;

/**
 * What is known about the sun and the cover.
 *
 * @param solarWM2 solar irradiance on a level plane, W/m², at least 0; empty: not fitted, not read
 *     or implausible
 * @param coverClosed whether the pool cover is closed; empty: not fitted or not read
 */
public record Outside(OptionalDouble solarWM2, Optional<Boolean> coverClosed) {
  public static final Outside UNKNOWN = new Outside(OptionalDouble.empty(), Optional.empty());

  /**
   * Range of a pyranometer's readings, W/m² (engineering judgement). Its zero may be below 0 on a
   * clear night, and clouds beside the sun may lift it above the solar constant of 1361.
   */
  private static final double SOLAR_MIN_W_M2 = -20;

  private static final double SOLAR_MAX_W_M2 = 1500;

  static Outside of(MeasureSettings settings, Signals signals) {
    return new Outside(
        settings.fitted().contains(Role.SOLAR_W_M2)
            ? solarWM2(signals.of(Role.SOLAR_W_M2))
            : OptionalDouble.empty(),
        settings.fitted().contains(Role.COVER_CLOSED)
            ? closed(signals.of(Role.COVER_CLOSED))
            : Optional.empty());
  }

  private static OptionalDouble solarWM2(Signal signal) {
    // NaN is outside every range.
    return signal instanceof Signal.Analog a
            && a.value() >= SOLAR_MIN_W_M2
            && a.value() <= SOLAR_MAX_W_M2
        ? OptionalDouble.of(Math.max(0, a.value()))
        : OptionalDouble.empty();
  }

  private static Optional<Boolean> closed(Signal signal) {
    return signal instanceof Signal.Contact contact
        ? Optional.of(contact.closed())
        : Optional.empty();
  }
}
