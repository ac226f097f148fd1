package limnostat.safety;

import static limnostat.safety.Effect.HOLD;
import static limnostat.safety.Effect.LIMIT;
import static limnostat.safety.Effect.NONE;

import java.util.Arrays;
import java.util.Optional;
import limnostat.actuate.Output;

/**
 * The cause-and-effect matrix (IEC 62881): one row a cause, and nothing else decides what an output
 * may do. Effects only take away. Interlocks of flow, separate feeding, overfeed and sensor faults:
 * water-chemistry section 10, with its sources.
 */
public enum Cause {
  INTERRUPTED(
      "interrupted",
      "first scan, or first after a gap",
      HOLD,
      HOLD,
      0,
      false,
      Priority.NONE,
      "The program has just started, or was stopped for longer than a scan may take."),
  RESTART_LOOP(
      "restart_loop",
      "program ends and begins again too often",
      HOLD,
      HOLD,
      0,
      false,
      Priority.HIGH,
      "Supply, board, card or program at fault: read the log. The outputs are free again after a calm"
          + " time as long as limits.restart_window, or by a person's reset."),
  SCAN_OVERRUN(
      "scan_overrun",
      "scans late or too long",
      NONE,
      NONE,
      0,
      false,
      Priority.MEDIUM,
      "More than one scan in ten came late or took most of its period: machine too busy or too hot,"
          + " card or bus failing. Flow that is lost is seen later."),
  MODE_OFF("mode_off", "mode is off", HOLD, HOLD, 0, false, Priority.NONE, "A person chose off."),
  NO_FLOW(
      "no_flow",
      "no flow",
      HOLD,
      HOLD,
      0,
      false,
      Priority.NONE,
      "The pump rests, or water does not move: a cell without flow collects hydrogen."),
  FLOW_NOT_PROVEN(
      "flow_not_proven",
      "flow not yet proven",
      HOLD,
      HOLD,
      0,
      false,
      Priority.NONE,
      "Flow must be steady for the proving time before anything is dosed."),
  FLOW_MISSING(
      "flow_missing",
      "pump wanted, no flow",
      NONE,
      NONE,
      0,
      false,
      Priority.HIGH,
      "Pump off or tripped, valve closed, strainer or filter blocked, or the flow switch stuck: look at the pump first."),
  PUMP_OFF(
      "pump_off",
      "pump contact open",
      HOLD,
      HOLD,
      0,
      false,
      Priority.NONE,
      "The circulation pump's contact says that it is off."),
  STANDING_WATER(
      "standing_water",
      "standing water at the probes",
      HOLD,
      HOLD,
      0,
      false,
      Priority.NONE,
      "The probes still see the water that stood in the pipe."),
  ORP_FAILURE(
      "orp_failure",
      "ORP signal failed",
      LIMIT,
      NONE,
      0,
      false,
      Priority.HIGH,
      "Probe unplugged, dry, fouled or broken, cable or converter: clean and check the probe in a standard solution."),
  PH_FAILURE(
      "ph_failure",
      "pH signal failed",
      LIMIT,
      HOLD,
      0,
      false,
      Priority.HIGH,
      "Probe unplugged, dry, cracked or old, cable or converter: clean the probe and check it in a buffer."),
  WATER_FAILURE(
      "water_failure",
      "water temperature failed",
      LIMIT,
      NONE,
      0,
      false,
      Priority.MEDIUM,
      "Thermometer unplugged or broken; the stated stand-in temperature is used."),
  FALLBACK_EXPIRED(
      "fallback_expired",
      "fed long enough on the learned demand",
      HOLD,
      NONE,
      0,
      false,
      Priority.HIGH,
      "A probe has been out for the whole fallback time: mend it; until then test and dose by hand."),
  WATER_COLD(
      "water_cold",
      "water too cold",
      HOLD,
      NONE,
      0,
      false,
      Priority.LOW,
      "Below the cold limit a salt cell wears and yields little."),
  WATER_HOT(
      "water_hot",
      "water too hot",
      HOLD,
      HOLD,
      0,
      false,
      Priority.MEDIUM,
      "Heater or thermometer at fault?"),
  PH_LOW(
      "ph_low",
      "pH below the dosing window",
      HOLD,
      HOLD,
      0,
      false,
      Priority.HIGH,
      "Too much acid, or a probe that drifts: test by hand before anything else."),
  PH_HIGH(
      "ph_high",
      "pH above the dosing window",
      HOLD,
      NONE,
      0,
      false,
      Priority.HIGH,
      "Acid wanted, or a probe that drifts: test by hand."),
  ORP_HIGH(
      "orp_high",
      "ORP at its high limit",
      HOLD,
      NONE,
      0,
      false,
      Priority.HIGH,
      "Too much chlorine, or a probe that drifts: test before bathing."),
  FREE_CHLORINE_HIGH(
      "free_chlorine_high",
      "free chlorine at its high limit, by estimate or test",
      HOLD,
      NONE,
      0,
      false,
      Priority.HIGH,
      "Too much chlorine, or an estimate gone wrong: test before bathing, and enter the test."),
  TARGET_LOW_FOR_STABILISER(
      "target_low_for_stabiliser",
      "target low for so much stabiliser",
      NONE,
      NONE,
      0,
      false,
      Priority.LOW,
      "Stabiliser holds most of the chlorine: the target should be at least 5 % of it with a salt cell, else 7.5 %"
          + " (common practice, no source). Test stabiliser; raise the target, or replace part of the water."),
  STABILISER_HIGH(
      "stabiliser_high",
      "stabiliser too high",
      NONE,
      NONE,
      0,
      false,
      Priority.LOW,
      "Test it; replace part of the water, and stop stabilised tablets. Until then free chlorine does little, and tests"
          + " of alkalinity and pH mislead (common practice, no source)."),
  CHLORINE_HOUR_CAP(
      "chlorine_hour_cap",
      "chlorine cap of 60 minutes reached",
      HOLD,
      NONE,
      0,
      false,
      Priority.NONE,
      "As much as the installer allows has been given in the last hour."),
  CHLORINE_DAY_CAP(
      "chlorine_day_cap",
      "chlorine cap of 24 hours reached",
      HOLD,
      NONE,
      0,
      false,
      Priority.MEDIUM,
      "Unusual demand, a weak output, or a probe that reads low: test by hand."),
  ACID_HOUR_CAP(
      "acid_hour_cap",
      "acid cap of 60 minutes reached",
      NONE,
      HOLD,
      0,
      false,
      Priority.NONE,
      "As much as the installer allows has been given in the last hour."),
  ACID_DAY_CAP(
      "acid_day_cap",
      "acid cap of 24 hours reached",
      NONE,
      HOLD,
      0,
      false,
      Priority.MEDIUM,
      "pH rises faster than usual, the acid is weak, or the probe drifts: test by hand."),
  CHLORINE_NOT_BOOKED(
      "chlorine_not_booked",
      "next chlorine dose not yet in the ledger",
      HOLD,
      NONE,
      0,
      false,
      Priority.NONE,
      "A dose is written down before it is given."),
  ACID_NOT_BOOKED(
      "acid_not_booked",
      "next acid dose not yet in the ledger",
      NONE,
      HOLD,
      0,
      false,
      Priority.NONE,
      "A dose is written down before it is given."),
  LEDGER_FAILING(
      "ledger_failing",
      "ledger cannot be written",
      NONE,
      NONE,
      0,
      false,
      Priority.HIGH,
      "Disk full, card worn or read-only: dosing ends with the doses already booked."),
  ACCOUNT_UNKNOWN(
      "account_unknown",
      "doses of the last 24 hours not known",
      NONE,
      NONE,
      0,
      false,
      Priority.HIGH,
      "The ledger was damaged and is set aside, or its state could not be read. The caps count as used"
          + " up until 24 hours have passed; test by hand. Power cuts and worn cards do this."),
  ACID_RECENT(
      "acid_recent",
      "acid fed a short time ago",
      HOLD,
      NONE,
      0,
      false,
      Priority.NONE,
      "Chlorine and acid keep apart in time: mixed they give chlorine gas."),
  CHLORINE_RECENT(
      "chlorine_recent",
      "chlorine fed a short time ago",
      NONE,
      HOLD,
      0,
      false,
      Priority.NONE,
      "Chlorine and acid keep apart in time: mixed they give chlorine gas."),
  TANK_LOW(
      "tank_low",
      "chlorine tank low",
      HOLD,
      NONE,
      0,
      false,
      Priority.MEDIUM,
      "Refill with the same chemical only, or the switch or its cable is at fault."),
  ACID_TANK_LOW(
      "acid_tank_low",
      "acid tank low",
      NONE,
      HOLD,
      0,
      false,
      Priority.MEDIUM,
      "Refill, or the switch or its cable is at fault."),
  CELL_CURRENT_UNEXPECTED(
      "cell_current_unexpected",
      "cell current while chlorine is off",
      HOLD,
      HOLD,
      15,
      true,
      Priority.CRITICAL,
      "A relay that sticks makes chlorine and hydrogen unasked: cut the cell's power by hand."),
  CELL_CURRENT_MISSING(
      "cell_current_missing",
      "no cell current while chlorine is on",
      NONE,
      NONE,
      60,
      false,
      Priority.HIGH,
      "Cell worn or scaled, salt low, fuse, cable or relay."),
  OUTPUT_NOT_DRIVEN(
      "output_not_driven",
      "an output could not be driven",
      HOLD,
      HOLD,
      0,
      false,
      Priority.CRITICAL,
      "Board, line or permission at fault; the log names it. Make sure by eye that the outputs are off."),
  CLOCK_NOT_TRUSTED(
      "clock_not_trusted",
      "wall clock not trusted",
      NONE,
      NONE,
      600,
      false,
      Priority.LOW,
      "No time server yet: pump windows and sun may be wrong; limits do not depend on it."),
  ESTIMATE_LOST(
      "estimate_lost",
      "ORP contradicts the estimate",
      LIMIT,
      NONE,
      0,
      false,
      Priority.HIGH,
      "For half a day ORP has shown something else than the doses and the tests say. The probe was"
          + " exchanged, has come off or is fouled, chlorine was added by hand, or the output gives"
          + " nothing: test the water and enter it, then clean and check the probe."),
  ESTIMATE_UNSURE(
      "estimate_unsure",
      "free chlorine not known well enough to plan by",
      NONE,
      NONE,
      0,
      false,
      Priority.MEDIUM,
      "For a day ORP alone has had to do. No test was entered, the last one is long ago, or the"
          + " probe drifts: test the water and enter it; then clean and check the probe."),
  OUTPUT_TOO_SMALL(
      "output_too_small",
      "output too small for what the pool uses",
      NONE,
      NONE,
      0,
      false,
      Priority.MEDIUM,
      "Run the pump longer, or look for what uses the chlorine (too little stabiliser, algae, many"
          + " people) and for what the output does not give (worn or scaled cell, low salt, old"
          + " chlorine)."),
  TEST_DUE(
      "test_due",
      "water test wanted",
      NONE,
      NONE,
      0,
      false,
      Priority.LOW,
      "Test the water by hand and enter the result: what is known of free chlorine rests on it."),
  COMBINED_CHLORINE_HIGH(
      "combined_chlorine_high",
      "combined chlorine above 0.5 mg/L at the last test",
      NONE,
      NONE,
      0,
      false,
      Priority.LOW,
      "Spent chlorine that irritates and disinfects little: superchlorinate with nobody in the"
          + " water, then test again.");

  private final String id;
  private final String title;
  private final Effect onChlorine;
  private final Effect onAcid;
  private final double delayS;
  private final boolean latching;
  private final Priority priority;
  private final String advice;

  Cause(
      String id,
      String title,
      Effect onChlorine,
      Effect onAcid,
      double delayS,
      boolean latching,
      Priority priority,
      String advice) {
    this.id = id;
    this.title = title;
    this.onChlorine = onChlorine;
    this.onAcid = onAcid;
    this.delayS = delayS;
    this.latching = latching;
    this.priority = priority;
    this.advice = advice;
  }

  public String id() {
    return id;
  }

  public String title() {
    return title;
  }

  public Effect on(Output output) {
    return switch (output) {
      case CHLORINE -> onChlorine;
      case ACID -> onAcid;
    };
  }

  /** How long the condition must last before it counts, s. */
  public double delayS() {
    return delayS;
  }

  /** Whether its effects stay until a person's reset. */
  public boolean latching() {
    return latching;
  }

  public Priority priority() {
    return priority;
  }

  /** Likely reasons and the mend, for the person who reads the alarm. */
  public String advice() {
    return advice;
  }

  public static Optional<Cause> ofId(String id) {
    return Arrays.stream(values()).filter(cause -> cause.id.equals(id)).findFirst();
  }
}
