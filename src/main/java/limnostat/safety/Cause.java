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
      Annunciation.of(Priority.HIGH).atOnce(),
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
  FLOW_UNASKED(
      "flow_unasked",
      "flow for 15 minutes, though the pump is not wanted",
      HOLD,
      HOLD,
      900,
      false,
      Priority.LOW,
      "The pump runs by hand or by its own timer, or the flow switch sticks and the water stands: nobody can tell, so"
          + " nothing is dosed. Set pump.windows to the hours in which the pump runs, or wire a pump contact; look whether"
          + " the switch opens when the pump stops."),
  FLOW_STUCK(
      "flow_stuck",
      "flow seen for 3 minutes while the pump rests",
      HOLD,
      HOLD,
      180,
      false,
      Priority.HIGH,
      "The flow switch sticks, or other things than the pump move the water: until flow has been seen to stop it proves"
          + " nothing. Look at the switch; where gravity or another pump moves the water, set flow.stops_with_pump to"
          + " false."),
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
  FUNCTION_CHECK(
      "function_check",
      "a person's function check",
      HOLD,
      HOLD,
      0,
      false,
      Priority.NONE,
      "A person has the probes or the plant in hand; it ends by command or by itself."),
  COVER_CLOSED(
      "cover_closed",
      "cover closed",
      LIMIT,
      NONE,
      0,
      Delay.OFF_S,
      false,
      Annunciation.of(Priority.NONE),
      "Under a cover no sun takes chlorine, and what is fed stays: no more than the demand without sun. Open it to superchlorinate."),
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
  PH_DISAGREES(
      "ph_disagrees",
      "pH electrode contradicts a person's tests",
      NONE,
      HOLD,
      0,
      false,
      Priority.MEDIUM,
      "Test again with fresh reagents; calibrate the electrode in two buffers, or replace it. A test that agrees ends it, and so"
          + " does another calibration in the file."),
  PH_UNEXPLAINED(
      "ph_unexplained",
      "pH has moved by more than what was fed explains",
      NONE,
      HOLD,
      0,
      false,
      Priority.MEDIUM,
      "Acid or base added by hand, or other water, which is normal; else an electrode that drifts, or a current in the"
          + " water. Test pH and enter it: a test that agrees ends it, and where pH had moved down a day does in which it"
          + " moves as water can."),
  WATER_FAILURE(
      "water_failure",
      "water temperature failed",
      LIMIT,
      NONE,
      0,
      false,
      Priority.MEDIUM,
      "Thermometer unplugged or broken; the stated stand-in temperature is used."),
  WATER_DISAGREES(
      "water_disagrees",
      "water temperature has moved as a pool cannot",
      LIMIT,
      NONE,
      0,
      false,
      Priority.MEDIUM,
      "Thermometer out of its pocket, cable, converter or another sensor; or a valve that lets other water pass it. The"
          + " stated stand-in temperature is used. Measure the water by hand; a function check ends it, so does a"
          + " reading that is back, and half a day of believable ones."),
  PROBE_WORN(
      "probe_worn",
      "a probe's calibration is outside what is good",
      NONE,
      NONE,
      0,
      false,
      Priority.LOW,
      "Clean the probe and calibrate it anew in fresh solutions; if that does not help, replace it."),
  CALIBRATION_DUE(
      "calibration_due",
      "a probe's calibration is too old",
      NONE,
      NONE,
      0,
      false,
      Priority.LOW,
      "Calibrate: pH in two buffers, ORP in a standard solution; write what was found and the date to the file."),
  FEEDING_BLIND(
      "feeding_blind",
      "nothing trustworthy measures chlorine",
      NONE,
      NONE,
      0,
      false,
      Priority.MEDIUM,
      "Chlorine is fed by the learned demand, less and less, within limits.blind_feed. One water test that is entered"
          + " gives the whole budget back; mend the probe."),
  BLIND_FEED_LOW(
      "blind_feed_low",
      "half of the blind budget is used up",
      NONE,
      NONE,
      0,
      false,
      Annunciation.of(Priority.HIGH).atOnce(),
      "Soon less chlorine is fed than the pool uses, and then none: the water may turn unsafe. Test the water now and"
          + " enter it; mend the probe."),
  BLIND_FEED_SPENT(
      "blind_feed_spent",
      "the blind budget is used up",
      HOLD,
      NONE,
      0,
      false,
      Annunciation.of(Priority.HIGH).atOnce(),
      "Nothing is fed any more, and the pool may be without chlorine: nobody bathes. Test the water and enter it, dose by"
          + " hand, mend the probe."),
  NO_RESPONSE(
      "no_response",
      "fed with no response of ORP",
      HOLD,
      NONE,
      0,
      true,
      Priority.HIGH,
      "Probe dead or dry, tank empty, cell dead, feeder air-locked, line slipped off or blocked: test the water, look at what feeds and at the probe, then reset."),
  ORP_FALLING(
      "orp_falling",
      "ORP has only fallen while chlorine was fed",
      LIMIT,
      NONE,
      0,
      false,
      Annunciation.of(Priority.HIGH).atOnce(),
      "Tank empty, cell dead, feeder air-locked, line slipped off, or an electrode that creeps; the pool may be without"
          + " chlorine. Test the water and enter it, look at what feeds and at the probe. A test or a rise of ORP ends"
          + " it."),
  ACID_NO_RESPONSE(
      "acid_no_response",
      "acid fed with no response of pH",
      NONE,
      HOLD,
      0,
      false,
      Priority.HIGH,
      "Electrode dead, dry or drifting up, so that the pool may be far too acid; or acid tank empty, feeder air-locked,"
          + " line slipped off, weak acid. Test pH by hand before anyone bathes and enter it, look at tank and feeder:"
          + " acid is fed again once a test agrees with the electrode."),
  WATER_COLD(
      "water_cold",
      "water too cold",
      HOLD,
      NONE,
      0,
      false,
      Annunciation.of(Priority.LOW).deadband(0.5, " °C"),
      "Below the cold limit a salt cell wears and yields little."),
  WATER_HOT(
      "water_hot",
      "water too hot",
      HOLD,
      HOLD,
      0,
      false,
      Annunciation.of(Priority.MEDIUM).deadband(0.5, " °C"),
      "Heater or thermometer at fault?"),
  PH_LOW(
      "ph_low",
      "pH below the dosing window",
      HOLD,
      HOLD,
      0,
      false,
      Annunciation.of(Priority.HIGH).deadband(0.05, ""),
      "Too much acid, or a probe that drifts: test by hand before anything else."),
  PH_HIGH(
      "ph_high",
      "pH above the dosing window",
      HOLD,
      NONE,
      0,
      false,
      Annunciation.of(Priority.HIGH).deadband(0.05, ""),
      "Acid wanted, or a probe that drifts: test by hand."),
  ORP_HIGH(
      "orp_high",
      "ORP at its high limit",
      HOLD,
      NONE,
      0,
      false,
      Annunciation.of(Priority.HIGH).deadband(10, " mV"),
      "Too much chlorine, or a probe that drifts: test before bathing."),
  FREE_CHLORINE_HIGH(
      "free_chlorine_high",
      "free chlorine at its high limit, by estimate or test",
      HOLD,
      NONE,
      0,
      false,
      Annunciation.of(Priority.HIGH).deadband(0.3, " mg/L"),
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
      Annunciation.of(Priority.LOW).deadband(10, " mg/L"),
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
  CHLORINE_LONGEST_RUN(
      "chlorine_longest_run",
      "chlorine on for its longest run, until it has rested",
      HOLD,
      NONE,
      0,
      false,
      Priority.NONE,
      "It rests after chlorine.longest_run, for chlorine.rest; normal where a cell runs at full duty."),
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
  ACID_LONGEST_RUN(
      "acid_longest_run",
      "acid on for its longest run, until it has rested",
      NONE,
      HOLD,
      0,
      false,
      Priority.NONE,
      "It rests after acid.longest_run, for acid.rest."),
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
      Delay.OFF_S,
      false,
      Annunciation.of(Priority.MEDIUM).goneAfter(300),
      "Refill with the same chemical only, or the switch or its cable is at fault."),
  ACID_TANK_LOW(
      "acid_tank_low",
      "acid tank low",
      NONE,
      HOLD,
      0,
      Delay.OFF_S,
      false,
      Annunciation.of(Priority.MEDIUM).goneAfter(300),
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
      "no cell current in 6 minutes of chlorine on",
      NONE,
      NONE,
      360,
      false,
      Annunciation.of(Priority.HIGH).atOnce(),
      "Cell worn or scaled, salt low, fuse, cable or relay."),
  CELL_CURRENT_LOW(
      "cell_current_low",
      "cell current lower than salt and temperature let expect",
      NONE,
      NONE,
      600,
      false,
      Priority.MEDIUM,
      "Salt low, cell scaled or worn, or a bad connection: test salt first, then look at the plates."),
  CELL_OVER_CURRENT(
      "cell_over_current",
      "cell current above its limit",
      HOLD,
      NONE,
      10,
      true,
      Priority.HIGH,
      "Salt far too high, plates bridged by scale or bent, or a short in cell or cable: cut its power and look before the reset."),
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
      Annunciation.of(Priority.LOW).atOnce(),
      "No time server yet: pump windows and sun may be wrong; limits do not depend on it."),
  CONFIGURATION_CHANGED(
      "configuration_changed",
      "configuration changed",
      NONE,
      NONE,
      0,
      false,
      Priority.LOW,
      "Since the last run options were changed that have to do with control: make sure that it was meant. Told for a day."),
  ESTIMATE_LOST(
      "estimate_lost",
      "ORP contradicts the estimate",
      LIMIT,
      NONE,
      0,
      false,
      Priority.HIGH,
      "ORP has shown something else than the doses and the tests say. The probe was exchanged, has"
          + " come off or is fouled, chlorine was added by hand, or the output gives nothing: test the"
          + " water and enter it, then clean and check the probe."),
  ESTIMATE_UNSURE(
      "estimate_unsure",
      "free chlorine hardly known",
      NONE,
      NONE,
      0,
      false,
      Priority.MEDIUM,
      "No test was entered, the last one is long ago, or the probe drifts: test the water and enter"
          + " it; then clean and check the probe."),
  CHLORINE_DOUBTFUL(
      "chlorine_doubtful",
      "the chlorine of the water may be gone",
      NONE,
      NONE,
      0,
      false,
      Annunciation.of(Priority.HIGH).atOnce(),
      "For a day free chlorine may have been below 1 mg/L, by what is known of it. Nobody bathes until it is tested:"
          + " test the water and enter it."),
  CHLORINE_USED_UP(
      "chlorine_used_up",
      "the last test found next to no chlorine",
      NONE,
      NONE,
      0,
      false,
      Annunciation.of(Priority.HIGH).atOnce(),
      "Nobody bathes. The output feeds what its limits allow: test daily and enter it, superchlorinate if the water is"
          + " green or cloudy, and look at what feeds. A test of 0.5 mg/L or more ends it."),
  STARVED_BY_ORP(
      "starved_by_orp",
      "ORP alone has kept the feed low for a day",
      NONE,
      NONE,
      0,
      false,
      Annunciation.of(Priority.HIGH).atOnce(),
      "Doses and tests call for at least twice as much as ORP lets feed, so half of that is fed now. Test the water and"
          + " enter it; then clean and check the probe."),
  OUTPUT_TOO_SMALL(
      "output_too_small",
      "output too small for what the pool uses",
      NONE,
      NONE,
      0,
      false,
      Priority.HIGH,
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
  TEST_OVERDUE(
      "test_overdue",
      "no water test for too long",
      NONE,
      NONE,
      0,
      false,
      Priority.MEDIUM,
      "Whatever the probes say, a person has to look: test free chlorine by hand and enter the result."),
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
  private final double delayOffS;
  private final boolean latching;

  @SuppressWarnings("ImmutableEnumChecker") // a record of numbers and a text
  private final Annunciation annunciation;

  private final String advice;

  /** With the usual delays and no deadband. */
  Cause(
      String id,
      String title,
      Effect onChlorine,
      Effect onAcid,
      double delayS,
      boolean latching,
      Priority priority,
      String advice) {
    this(id, title, onChlorine, onAcid, delayS, latching, Annunciation.of(priority), advice);
  }

  Cause(
      String id,
      String title,
      Effect onChlorine,
      Effect onAcid,
      double delayS,
      boolean latching,
      Annunciation annunciation,
      String advice) {
    this(id, title, onChlorine, onAcid, delayS, 0, latching, annunciation, advice);
  }

  Cause(
      String id,
      String title,
      Effect onChlorine,
      Effect onAcid,
      double delayS,
      double delayOffS,
      boolean latching,
      Annunciation annunciation,
      String advice) {
    this.id = id;
    this.title = title;
    this.onChlorine = onChlorine;
    this.onAcid = onAcid;
    this.delayS = delayS;
    this.delayOffS = delayOffS;
    this.latching = latching;
    this.annunciation = annunciation;
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

  /** How long the condition must be gone before it counts no more, s: a switch that bobs. */
  public double delayOffS() {
    return delayOffS;
  }

  /** Whether its effects stay until a person's reset. */
  public boolean latching() {
    return latching;
  }

  public Priority priority() {
    return annunciation.priority();
  }

  /** How it becomes an alarm: delays and deadband. */
  public Annunciation annunciation() {
    return annunciation;
  }

  /** Likely reasons and the mend, for the person who reads the alarm. */
  public String advice() {
    return advice;
  }

  public static Optional<Cause> ofId(String id) {
    return Arrays.stream(values()).filter(cause -> cause.id.equals(id)).findFirst();
  }

  /** An enum's own constants are not there yet when its rows are made. */
  private static final class Delay {
    /** A float in waves, a cover that moves (engineering judgement), s. */
    static final double OFF_S = 60;
  }
}
