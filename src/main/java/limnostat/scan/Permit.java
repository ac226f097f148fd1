package limnostat.scan;

import java.util.Arrays;
import java.util.EnumSet;
import java.util.Optional;
import java.util.Set;
import limnostat.control.Mode;

/** What the installer may allow over the network, each by its name in the configuration. */
public enum Permit {
  TEST_RESULT("test_result"),
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
   * What an owner needs on a telephone and what feeds no more by itself: told tests, alarms, the
   * sun, and to stop. Stopping starves the pool, but is the one thing to be able to do from afar.
   */
  public static final Set<Permit> USUAL =
      Set.of(TEST_RESULT, ACKNOWLEDGE, ALARM_SHELVE, ALARM_UNSHELVE, SUN_FORECAST, OFF);

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

  /**
   * Those of which one is enough; none: nobody can allow it, as what only a person at the board may
   * do is refused by itself.
   */
  static Set<Permit> of(Command command) {
    if (command instanceof Command.SetMode c) {
      return c.mode() == Mode.OFF ? EnumSet.of(OFF, MODE) : EnumSet.of(MODE);
    }
    if (command instanceof Command.SetTarget) {
      return EnumSet.of(TARGET);
    }
    if (command instanceof Command.Test) {
      return EnumSet.of(TEST_RESULT);
    }
    if (command instanceof Command.Superchlorinate) {
      return EnumSet.of(SUPERCHLORINATE);
    }
    if (command instanceof Command.Acknowledge) {
      return EnumSet.of(ACKNOWLEDGE);
    }
    if (command instanceof Command.Shelve) {
      return EnumSet.of(ALARM_SHELVE);
    }
    if (command instanceof Command.Unshelve) {
      return EnumSet.of(ALARM_UNSHELVE);
    }
    if (command instanceof Command.ForecastSun) {
      return EnumSet.of(SUN_FORECAST);
    }
    if (command instanceof Command.Reset) {
      return EnumSet.of(RESET);
    }
    if (command instanceof Command.FunctionCheck) {
      return EnumSet.of(FUNCTION_CHECK);
    }
    if (command instanceof Command.CalibratePh
        || command instanceof Command.CalibrateOrp
        || command instanceof Command.CalibrateUndo) {
      return EnumSet.of(CALIBRATE);
    }
    return EnumSet.noneOf(Permit.class);
  }
}
