package limnostat.scan;

import java.util.Arrays;
import java.util.Optional;
import java.util.Set;

/** What the installer may allow over the network, each by its name in the configuration. */
public enum Permit {
  TEST_RESULT("test_result"),
  /** {@code addition_undo} and {@code addition_list} too. */
  ADDITION("addition"),
  ACKNOWLEDGE("acknowledge"),
  ALARM_SHELVE("alarm_shelve"),
  ALARM_UNSHELVE("alarm_unshelve"),
  SUN_FORECAST("sun_forecast"),
  /** {@code mode} with {@code off}, and no other. */
  OFF("off"),
  /** Any {@code mode}, {@code off} as well. */
  MODE("mode"),
  TARGET("target"),
  SUPERCHLORINATE("superchlorinate"),
  RESET("reset"),
  FUNCTION_CHECK("function_check"),
  CALIBRATE("calibrate");

  /**
   * What an owner needs on a telephone and what feeds no more by itself: entered tests and
   * additions, alarms, the sun, and to stop. Stopping starves the pool, but is the one thing to be
   * able to do from afar.
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
