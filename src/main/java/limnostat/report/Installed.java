package limnostat.report;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.Optional;
import limnostat.actuate.OutputSettings;
import limnostat.estimate.SlowSettings;
import limnostat.measure.FlowSensor;
import limnostat.measure.ProbeHealth;
import limnostat.measure.ProbeSettings;
import limnostat.measure.PumpSign;
import limnostat.measure.Role;
import limnostat.measure.Status;
import limnostat.safety.Cause;
import limnostat.safety.HardBounds;
import limnostat.safety.SafetyLimits;
import limnostat.scan.ScanSettings;

/** The rows of the matrix for one installation: its limits, and the causes that cannot occur. */
record Installed(ScanSettings settings) {
  /** More significant figures than anybody writes in a configuration file. */
  private static final MathContext FIGURES = new MathContext(9);

  /**
   * @return the limit, with its unit; empty if the installer sets none for this row
   */
  Optional<String> limit(Cause cause) {
    SafetyLimits limits = settings.limits();
    return Optional.ofNullable(
        switch (cause) {
          case INTERRUPTED -> "more than " + time(HardBounds.SCAN_GAP_S);
          case RESTART_LOOP ->
              "more than "
                  + limits.run().restartsMax()
                  + " times in "
                  + time(limits.run().windowS());
          case NO_FLOW, FLOW_MISSING ->
              settings.measure().flow() instanceof FlowSensor.Meter meter
                  ? "below " + number(meter.minimumLMin(), "L/min")
                  : null;
          case FLOW_NOT_PROVEN -> time(limits.flowProvingS());
          case STANDING_WATER -> time(settings.measure().freshWaterS()) + " of flow";
          case FUNCTION_CHECK -> "at most " + time(HardBounds.FUNCTION_CHECK_MAX_S);
          case ORP_FAILURE -> probe(settings.measure().orp(), "mV");
          case PH_FAILURE -> probe(settings.measure().ph(), "");
          case WATER_FAILURE -> probe(settings.measure().water(), "°C");
          case BLIND_FEED_SPENT -> mgL(limits.blindFeedMgL());
          case NO_RESPONSE -> mgL(limits.process().noResponseMgL());
          case WATER_COLD -> number(limits.waterMinC(), "°C");
          case WATER_HOT -> number(limits.waterMaxC(), "°C");
          case PH_LOW -> number(limits.phDosingMin(), "");
          case PH_HIGH -> number(limits.phDosingMax(), "");
          case ORP_HIGH -> number(limits.orpHighMv(), "mV");
          case FREE_CHLORINE_HIGH ->
              mgL(limits.freeChlorineHighMgL())
                  + ", during a superchlorination "
                  + mgL(limits.superchlorinationMaxMgL());
          case TARGET_LOW_FOR_STABILISER ->
              "below " + number(100 * SlowSettings.leastFreeChlorineMgL(1), "%") + " of it";
          case CHLORINE_HOUR_CAP -> number(settings.chlorine().caps().hourCap(), "g");
          case CHLORINE_DAY_CAP -> number(settings.chlorine().caps().dayCap(), "g");
          case CHLORINE_LONGEST_RUN -> run(settings.chlorine().output());
          case ACID_HOUR_CAP -> acid(number(settings.acid().caps().hourCap(), "mL"));
          case ACID_DAY_CAP -> acid(number(settings.acid().caps().dayCap(), "mL"));
          case ACID_LONGEST_RUN -> acid(run(settings.acid().output()));
          case ACID_RECENT, CHLORINE_RECENT -> acid("less than " + time(limits.separationS()));
          case CELL_OVER_CURRENT ->
              limits.process().cellMaxA().isPresent()
                  ? number(limits.process().cellMaxA().getAsDouble(), "A")
                  : null;
          case CELL_CURRENT_LOW ->
              limits.process().cellUsualA().isPresent()
                  ? number(limits.process().cellUsualA().getAsDouble(), "A") + " at full duty"
                  : null;
          case TEST_OVERDUE -> time(limits.process().testOverdueS());
          default -> null;
        });
  }

  /**
   * @return why the cause cannot occur; empty if it can
   */
  Optional<String> cannot(Cause cause) {
    PumpSign sign = settings.measure().pumpSign();
    boolean always = settings.control().pumpWindows().isEmpty();
    return Optional.ofNullable(
        switch (cause) {
          case PUMP_OFF -> unlessFitted(Role.PUMP_ON);
          case COVER_CLOSED -> unlessFitted(Role.COVER_CLOSED);
          case TANK_LOW -> unlessFitted(Role.TANK_LOW);
          case CELL_CURRENT_UNEXPECTED, CELL_CURRENT_MISSING -> unlessFitted(Role.CELL_A);
          case CELL_OVER_CURRENT ->
              settings.limits().process().cellMaxA().isEmpty()
                  ? "no limits.cell_current_max"
                  : unlessFitted(Role.CELL_A);
          case CELL_CURRENT_LOW ->
              settings.limits().process().cellUsualA().isEmpty()
                  ? "no chlorine.cell_current"
                  : unlessFitted(Role.CELL_A);
          case FLOW_UNASKED ->
              always
                  ? "pump.windows has the pump run always"
                  : sign == PumpSign.NONE ? null : "flow_stuck has it";
          case FLOW_STUCK ->
              switch (sign) {
                case CONTACT -> null;
                case REQUEST -> always ? "pump.windows has the pump run always" : null;
                case NONE -> "nothing tells that the pump rests";
              };
          case ACID_HOUR_CAP,
              ACID_DAY_CAP,
              ACID_LONGEST_RUN,
              ACID_NOT_BOOKED,
              PH_UNEXPLAINED,
              ACID_NO_RESPONSE,
              ACID_RECENT,
              CHLORINE_RECENT ->
              unlessAcid();
          case ACID_TANK_LOW ->
              settings.acid().fitted() ? unlessFitted(Role.ACID_TANK_LOW) : unlessAcid();
          case CALIBRATION_DUE ->
              settings.measure().orpCalibrated().atUnixS().isEmpty()
                      && settings.measure().phCalibrated().atUnixS().isEmpty()
                  ? "neither orp.calibrated nor ph.calibrated"
                  : null;
          case PROBE_WORN ->
              ProbeHealth.orp(settings.measure().orpOffsetMv()) == Status.GOOD
                      && ProbeHealth.ph(settings.measure().phCalibration()) == Status.GOOD
                  ? "orp.offset and ph.buffers are good"
                  : null;
          default -> null;
        });
  }

  private String unlessFitted(Role role) {
    return settings.measure().fitted().contains(role)
        ? null
        : "no " + role.key() + " in inputs.fitted";
  }

  private String unlessAcid() {
    return settings.acid().fitted() ? null : "no acid output";
  }

  private String acid(String limit) {
    return settings.acid().fitted() ? limit : null;
  }

  private static String probe(ProbeSettings probe, String unit) {
    return "believed from "
        + number(probe.rangeMin(), unit)
        + " to "
        + number(probe.rangeMax(), unit)
        + ", held for "
        + time(probe.staleS());
  }

  private static String run(OutputSettings output) {
    return time(output.longestRunS()) + " and then " + time(output.restS());
  }

  private static String mgL(double value) {
    return number(value, "mg/L");
  }

  private static String number(double value, String unit) {
    String figures =
        value == 0 ? "0" : new BigDecimal(value, FIGURES).stripTrailingZeros().toPlainString();
    return (figures + " " + unit).strip();
  }

  /** In the unit that people would use. */
  private static String time(double seconds) {
    if (seconds < 120) {
      return number(seconds, "s");
    }
    if (seconds < 7200) {
      return number(seconds / 60, "min");
    }
    return seconds < 2 * 86_400 ? number(seconds / 3600, "h") : number(seconds / 86_400, "d");
  }
}
