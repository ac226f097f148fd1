package limnostat.scan;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import limnostat.measure.CalibrationAge;
import limnostat.measure.Envelope;
import limnostat.measure.Fault;
import limnostat.measure.MeasureSettings;
import limnostat.measure.MeasureState;
import limnostat.measure.PhCalibration;
import limnostat.measure.PhCheck;
import limnostat.measure.ProbeHealth;
import limnostat.measure.ProbeSettings;
import limnostat.measure.Status;
import limnostat.measure.Upkeep;

/** Details for probe alarms: which test failed, on what value, and its limit. */
record ProbeDetails(MeasureSettings settings, MeasureState state, Upkeep upkeep) {
  private static final double DAY_S = 86_400;

  /** How a quantity is displayed: the table of its options, its decimals and its unit. */
  private record Quantity(String name, String table, int decimals, String unit) {
    String of(double value) {
      return text("%." + decimals + "f", value) + unit;
    }

    /** Shows all digits: bands and rates are smaller than values. */
    String step(double value) {
      return new java.math.BigDecimal(Double.toString(value)).stripTrailingZeros().toPlainString()
          + unit;
    }
  }

  private static final Quantity ORP = new Quantity("ORP", "orp", 0, " mV");
  private static final Quantity PH = new Quantity("pH", "ph", 2, "");
  private static final Quantity WATER =
      new Quantity("The water temperature", "thermometer", 1, " °C");

  Optional<String> orp() {
    return said(ORP, settings.orp(), state.orpFault(), upkeep.orp());
  }

  Optional<String> ph() {
    return said(PH, settings.ph(), state.phFault(), upkeep.ph());
  }

  Optional<String> water() {
    return said(WATER, settings.water(), state.waterFault(), Status.GOOD);
  }

  private static Optional<String> said(
      Quantity quantity, ProbeSettings limits, Optional<Fault> fault, Status health) {
    return health == Status.FAILURE
        ? Optional.of(quantity.name + " has a calibration that no sound probe has.")
        : fault.map(f -> fault(quantity, limits, f) + again(limits));
  }

  private static String fault(Quantity q, ProbeSettings limits, Fault fault) {
    String read = q.name + " read " + q.of(fault.value());
    String outside =
        text(
            ", outside %s to %s (%s.range_min, %s.range_max)",
            q.of(limits.rangeMin()), q.of(limits.rangeMax()), q.table, q.table);
    return switch (fault.test()) {
      case OPEN -> "Open circuit: " + read + outside + ", more than a sound electrode gives.";
      case SHORT ->
          "Short circuit: " + read + ", and the electrode as wired gives nothing: 5 mV or less.";
      case RANGE -> "Out of range: " + read + outside + ".";
      case RATE ->
          text(
              "Too fast: %s after %s, faster than %s a second (%s.rate_max).",
              read, q.of(fault.before()), q.step(limits.rateMaxPerS()), q.table);
      case FREEZE ->
          text(
              "Frozen: %s has stayed within %s of %s for %.0f min (%s.freeze_band, %s.freeze_after).",
              q.name,
              q.step(limits.freezeBand()),
              q.of(fault.value()),
              limits.freezeS() / 60,
              q.table,
              q.table);
      case PRESENT, MODEL, STEADY, CALIBRATION, FRESH_WATER ->
          text(
              "Stale: %s has had no signal, or one too seldom, for more than %.0f s (%s.stale_after).",
              q.name, limits.staleS(), q.table);
    };
  }

  private static String again(ProbeSettings limits) {
    return text(
        " It counts again once it has been good for some minutes without a break, %.0f at most.",
        StrictMath.ceil(ProbeHealth.recoveryS(limits) / 60));
  }

  String disagreement() {
    PhCheck check = state.phCheck();
    return text(
        "The last test read pH %.2f where the electrode said %.2f, more than %.1f apart%s.",
        check.tested(),
        check.beside(),
        PhCheck.MOST,
        check.off() > 1 ? ", and the test before it differed to the same side" : "");
  }

  String impossible() {
    return impossible(WATER, state.waterModel());
  }

  String unexplained() {
    return impossible(PH, state.phModel());
  }

  private static String impossible(Quantity q, Envelope model) {
    return text(
        "%s has moved further %s than the water can have, by what was believed before.",
        q.name, model.above() ? "up" : "down");
  }

  String worn() {
    List<String> parts = new ArrayList<>();
    if (upkeep.orp() != Status.GOOD) {
      parts.add(
          text(
              "The ORP probe reads %.0f mV beside the standard (orp.offset): %s beyond %.0f mV, failure"
                  + " beyond %.0f.",
              Math.abs(settings.orpOffsetMv()),
              Status.MAINTENANCE_REQUIRED.term(),
              ProbeHealth.ORP_OFFSET_GOOD_MV,
              ProbeHealth.ORP_OFFSET_MAX_MV));
    }
    if (upkeep.ph() != Status.GOOD) {
      PhCalibration ph = settings.phCalibration();
      parts.add(
          text(
              "The pH electrode has a slope of %.1f %% of Nernst's and an offset of %.1f mV (ph.buffers):"
                  + " %s. Good are %.0f to %.0f %% and up to %.0f mV.",
              100 * ph.slopeFraction(),
              ph.offsetMv(),
              upkeep.ph().term(),
              100 * ProbeHealth.SLOPE_GOOD_MIN,
              100 * ProbeHealth.SLOPE_GOOD_MAX,
              ProbeHealth.PH_OFFSET_GOOD_MV));
    }
    return String.join(" ", parts);
  }

  String due() {
    List<String> parts = new ArrayList<>();
    if (upkeep.orpCalibrationDue()) {
      parts.add(due("The ORP probe", "orp", settings.orpCalibrated()));
    }
    if (upkeep.phCalibrationDue()) {
      parts.add(due("The pH electrode", "ph", settings.phCalibrated()));
    }
    return String.join(" ", parts);
  }

  private static String due(String probe, String table, CalibrationAge age) {
    return text(
        "%s was calibrated more than %.0f days ago, or its date lies ahead (%s.calibrated,"
            + " %s.calibrate_every).",
        probe, age.longestS() / DAY_S, table, table);
  }

  private static String text(String format, Object... values) {
    return String.format(Locale.ROOT, format, values);
  }
}
