package limnostat.config;

import limnostat.actuate.OutputSettings.Drive;
import limnostat.safety.HardBounds;

/** The options that both outputs have: how a demanded duty becomes an output. */
final class DriveOptions {
  final Option<Drive> drive;
  final Option<Double> cycle;
  final Option<Double> minOn;
  final Option<Double> minOff;
  final Option<Double> longestRun;
  final Option<Double> rest;
  final Option<Double> block;

  DriveOptions(
      String table,
      double minOnS,
      double longestRunMin,
      double restMin,
      Quantity blockForm,
      String hourCap) {
    drive =
        Options.byDefault(
            table, "drive", Choice.of(Drive.class), Drive.RELAY, "What hangs on the output.");
    cycle =
        Options.quantity(
            table,
            "cycle",
            Quantity.of(Dimension.TIME, "min", 0.5, 60),
            10,
            "Period of the time proportioning.");
    minOn =
        Options.quantity(
            table,
            "min_on",
            Quantity.of(Dimension.TIME, "s", 0.1, 1800),
            minOnS,
            "Shortest on time; an interlock still turns off at once.");
    minOff =
        Options.quantity(
            table, "min_off", Quantity.of(Dimension.TIME, "s", 0, 1800), 60, "Shortest off time.");
    longestRun =
        Options.quantity(
            table,
            "longest_run",
            Quantity.of(Dimension.TIME, "min", 0.5, HardBounds.LONGEST_RUN_S / 60).withHardMax(),
            longestRunMin,
            "Longest unbroken on time, after which the output rests.");
    rest =
        Options.quantity(
            table,
            "rest",
            Quantity.of(Dimension.TIME, "min", 0, 1440),
            restMin,
            "Off time after the longest run.");
    block =
        Options.optional(
            table,
            "block",
            blockForm,
            "a twentieth of limits." + hourCap,
            "How much is booked ahead in one ledger commit; a crash counts it as given.");
  }
}
