package limnostat.config;

import java.time.LocalDate;

/** When a probe was calibrated and how long that stays valid (common practice, no source). */
final class CalibrationOptions {
  final Option<LocalDate> calibrated;
  final Option<Double> every;

  CalibrationOptions(String table, double everyDays) {
    calibrated =
        Options.optional(
            table,
            "calibrated",
            new CalendarDay(),
            "not entered; no reminder",
            "The day of the last calibration.");
    every =
        Options.quantity(
            table,
            "calibrate_every",
            Quantity.of(Dimension.TIME, "d", 1, 1000),
            everyDays,
            "An older calibration is an alarm.");
  }
}
