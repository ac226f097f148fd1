package limnostat.scan;

import java.util.Arrays;
import java.util.Optional;
import java.util.Set;

/** What the installer may allow over the network, each by its name in the configuration. */
public enum Permit {
  TEST_RESULT("test_result"),
  /** Includes {@code addition_undo} and {@code addition_list}. */
  ADDITION("addition"),
  ACKNOWLEDGE("acknowledge"),
  ALARM_SHELVE("alarm_shelve"),
  ALARM_UNSHELVE("alarm_unshelve"),
  SUN_FORECAST("sun_forecast"),
  /** Only {@code mode} with {@code off}. */
  OFF("off"),
  /** Any {@code mode}, including {@code off}. */
  MODE("mode"),
  TARGET("target"),
  SUPERCHLORINATE("superchlorinate"),
  RESET("reset"),
  FUNCTION_CHECK("function_check"),
  CALIBRATE("calibrate");

  /**
   * What an owner needs on a phone and what does not raise the feed by itself: entering tests and
   * additions, alarms, the sun forecast, and stopping. Stopping leaves the pool without chlorine,
   * but it is the one thing that must be possible remotely.
   */
  public static final Set<Permit> USUAL =
      Set.of(TEST_RESULT, ADDITION, ACKNOWLEDGE, ALARM_SHELVE, ALARM_UNSHELVE, SUN_FORECAST, OFF);

  private final String key;

  Permit(String key) {
    this.key = key;
  }

  public String key() {
    return key;
  }

  public static Optional<Permit> ofKey(String key) {
    return Arrays.stream(values()).filter(permit -> permit.key.equals(key)).findFirst();
  }
}
