package limnostat.safety;

import static limnostat.actuate.Output.ACID;
import static limnostat.actuate.Output.CHLORINE;
import static limnostat.safety.CauseRow.row;
import static limnostat.safety.Priority.CRITICAL;
import static limnostat.safety.Priority.HIGH;
import static limnostat.safety.Priority.LOW;
import static limnostat.safety.Priority.MEDIUM;

import java.util.Arrays;
import java.util.Optional;
import limnostat.actuate.Output;

/**
 * The cause-and-effect matrix (IEC 62881), with one row per cause. Nothing else decides what an
 * output may do. Effects only reduce an output. For the interlocks on flow, separate feeding,
 * overfeed and sensor faults, see water-chemistry section 10 and its sources.
 */
public enum Cause {
  INTERRUPTED(
      row("interrupted", "first scan, or first after a gap")
          .inhibits(CHLORINE, ACID)
          .advice("The program has just started, or was stopped for longer than a scan may take.")),
  RESTART_LOOP(
      row("restart_loop", "program ends and begins again too often")
          .inhibits(CHLORINE, ACID)
          .announced(Annunciation.of(HIGH).atOnce())
          .advice(
              "Supply, board, card or program at fault: read the log. The outputs are free again after a calm"
                  + " time as long as limits.restart_window, or by a person's reset.")),
  SCAN_OVERRUN(
      row("scan_overrun", "scans late or too long")
          .priority(MEDIUM)
          .advice(
              "More than one scan in ten came late or took most of its period: machine too busy or too hot,"
                  + " card or bus failing. Flow that is lost is seen later.")),
  MODE_OFF(row("mode_off", "mode is off").inhibits(CHLORINE, ACID).advice("A person chose off.")),
  NO_FLOW(
      row("no_flow", "no flow")
          .inhibits(CHLORINE, ACID)
          .advice(
              "The pump rests, or water does not move: a cell without flow collects hydrogen.")),
  FLOW_NOT_PROVEN(
      row("flow_not_proven", "flow not yet proven")
          .inhibits(CHLORINE, ACID)
          .advice("Flow must be steady for the proving time before anything is dosed.")),
  FLOW_MISSING(
      row("flow_missing", "pump wanted, no flow")
          .priority(HIGH)
          .advice(
              "Pump off or tripped, valve closed, strainer or filter blocked, or the flow switch stuck: look at the pump first.")),
  FLOW_UNASKED(
      row("flow_unasked", "flow for 15 minutes, though the pump is not wanted")
          .inhibits(CHLORINE, ACID)
          .after(900)
          .priority(LOW)
          .advice(
              "The pump runs by hand or by its own timer, or the flow switch sticks and the water stands: nobody can tell, so"
                  + " nothing is dosed. Set pump.windows to the hours in which the pump runs, or wire a pump contact; look whether"
                  + " the switch opens when the pump stops.")),
  FLOW_STUCK(
      row("flow_stuck", "flow seen for 3 minutes while the pump rests")
          .inhibits(CHLORINE, ACID)
          .after(180)
          .priority(HIGH)
          .advice(
              "The flow switch sticks, or other things than the pump move the water: until flow has been seen to stop it proves"
                  + " nothing. Look at the switch; where gravity or another pump moves the water, set flow.stops_with_pump to"
                  + " false.")),
  PUMP_OFF(
      row("pump_off", "pump contact open")
          .inhibits(CHLORINE, ACID)
          .advice("The circulation pump's contact says that it is off.")),
  STANDING_WATER(
      row("standing_water", "standing water at the probes")
          .inhibits(CHLORINE, ACID)
          .advice("The probes still see the water that stood in the pipe.")),
  FUNCTION_CHECK(
      row("function_check", "a person's function check")
          .inhibits(CHLORINE, ACID)
          .advice(
              "A person has the probes or the plant in hand; it ends by command or by itself.")),
  COVER_CLOSED(
      row("cover_closed", "cover closed")
          .limits(CHLORINE)
          .releasedAfter(Delay.OFF_S)
          .advice(
              "Under a cover no sun takes chlorine, and what is fed stays: no more than the demand without sun. Open it to superchlorinate.")),
  ORP_FAILURE(
      row("orp_failure", "ORP signal failed")
          .limits(CHLORINE)
          .priority(HIGH)
          .advice(
              "Probe unplugged, dry, fouled or broken, cable or converter: clean and check the probe in a standard solution.")),
  PH_FAILURE(
      row("ph_failure", "pH signal failed")
          .inhibits(ACID)
          .limits(CHLORINE)
          .priority(HIGH)
          .advice(
              "Probe unplugged, dry, cracked or old, cable or converter: clean the probe and check it in a buffer.")),
  PH_DISAGREES(
      row("ph_disagrees", "pH electrode contradicts a person's tests")
          .inhibits(ACID)
          .priority(MEDIUM)
          .advice(
              "Test again with fresh reagents; calibrate the electrode in two buffers, or replace it. A test that agrees ends it, and so"
                  + " does another calibration in the file.")),
  PH_UNEXPLAINED(
      row("ph_unexplained", "pH has moved by more than what was fed explains")
          .inhibits(ACID)
          .priority(MEDIUM)
          .advice(
              "Acid or base added by hand, or other water, which is normal; else an electrode that drifts, or a current in the"
                  + " water. Test pH and enter it: a test that agrees ends it, and where pH had moved down a day does in which it"
                  + " moves as water can.")),
  WATER_FAILURE(
      row("water_failure", "water temperature failed")
          .limits(CHLORINE)
          .priority(MEDIUM)
          .advice("Thermometer unplugged or broken; the stated stand-in temperature is used.")),
  WATER_DISAGREES(
      row("water_disagrees", "water temperature has moved as a pool cannot")
          .limits(CHLORINE)
          .priority(MEDIUM)
          .advice(
              "Thermometer out of its pocket, cable, converter or another sensor; or a valve that lets other water pass it. The"
                  + " stated stand-in temperature is used. Measure the water by hand; a function check ends it, so does a"
                  + " reading that is back, and half a day of believable ones.")),
  PROBE_WORN(
      row("probe_worn", "a probe's calibration is outside what is good")
          .priority(LOW)
          .advice(
              "Clean the probe and calibrate it anew in fresh solutions; if that does not help, replace it.")),
  CALIBRATION_DUE(
      row("calibration_due", "a probe's calibration is too old")
          .priority(LOW)
          .advice(
              "Calibrate: pH in two buffers, ORP in a standard solution; write what was found and the date to the file.")),
  FEEDING_BLIND(
      row("feeding_blind", "nothing trustworthy measures chlorine")
          .priority(MEDIUM)
          .advice(
              "Chlorine is fed by the learned demand, less and less, within limits.blind_feed. One water test that is entered"
                  + " gives the whole budget back; mend the probe.")),
  BLIND_FEED_LOW(
      row("blind_feed_low", "half of the blind budget is used up")
          .announced(Annunciation.of(HIGH).atOnce())
          .advice(
              "Soon less chlorine is fed than the pool uses, and then none: the water may turn unsafe. Test the water now and"
                  + " enter it; mend the probe.")),
  BLIND_FEED_SPENT(
      row("blind_feed_spent", "the blind budget is used up")
          .inhibits(CHLORINE)
          .announced(Annunciation.of(HIGH).atOnce())
          .advice(
              "Nothing is fed any more, and the pool may be without chlorine: nobody bathes. Test the water and enter it, dose by"
                  + " hand, mend the probe.")),
  NO_RESPONSE(
      row("no_response", "fed with no response of ORP")
          .inhibits(CHLORINE)
          .latches()
          .priority(HIGH)
          .advice(
              "Probe dead or dry, tank empty, cell dead, feeder air-locked, line slipped off or blocked: test the water, look at what feeds and at the probe, then reset.")),
  ORP_FALLING(
      row("orp_falling", "ORP has only fallen while chlorine was fed")
          .limits(CHLORINE)
          .announced(Annunciation.of(HIGH).atOnce())
          .advice(
              "Tank empty, cell dead, feeder air-locked, line slipped off, or an electrode that creeps; the pool may be without"
                  + " chlorine. Test the water and enter it, look at what feeds and at the probe. A test or a rise of ORP ends"
                  + " it.")),
  ACID_NO_RESPONSE(
      row("acid_no_response", "acid fed with no response of pH")
          .inhibits(ACID)
          .priority(HIGH)
          .advice(
              "Electrode dead, dry or drifting up, so that the pool may be far too acid; or acid tank empty, feeder air-locked,"
                  + " line slipped off, weak acid. Test pH by hand before anyone bathes and enter it, look at tank and feeder:"
                  + " acid is fed again once a test agrees with the electrode.")),
  WATER_COLD(
      row("water_cold", "water too cold")
          .inhibits(CHLORINE)
          .announced(Annunciation.of(LOW).deadband(0.5, " °C"))
          .advice("Below the cold limit a salt cell wears and yields little.")),
  WATER_HOT(
      row("water_hot", "water too hot")
          .inhibits(CHLORINE, ACID)
          .announced(Annunciation.of(MEDIUM).deadband(0.5, " °C"))
          .advice("Heater or thermometer at fault?")),
  PH_LOW(
      row("ph_low", "pH below the dosing window")
          .inhibits(CHLORINE, ACID)
          .announced(Annunciation.of(HIGH).deadband(0.05, ""))
          .advice("Too much acid, or a probe that drifts: test by hand before anything else.")),
  PH_HIGH(
      row("ph_high", "pH above the dosing window")
          .inhibits(CHLORINE)
          .announced(Annunciation.of(HIGH).deadband(0.05, ""))
          .advice("Acid wanted, or a probe that drifts: test by hand.")),
  ORP_HIGH(
      row("orp_high", "ORP at its high limit")
          .inhibits(CHLORINE)
          .announced(Annunciation.of(HIGH).deadband(10, " mV"))
          .advice("Too much chlorine, or a probe that drifts: test before bathing.")),
  FREE_CHLORINE_HIGH(
      row("free_chlorine_high", "free chlorine at its high limit, by estimate or test")
          .inhibits(CHLORINE)
          .announced(Annunciation.of(HIGH).deadband(0.3, " mg/L"))
          .advice(
              "Too much chlorine, or an estimate gone wrong: test before bathing, and enter the test.")),
  TARGET_LOW_FOR_STABILISER(
      row("target_low_for_stabiliser", "target low for so much stabiliser")
          .priority(LOW)
          .advice(
              "Stabiliser holds most of the chlorine: the target should be at least a twentieth of it. Test"
                  + " stabiliser; raise the target, or replace part of the water.")),
  STABILISER_HIGH(
      row("stabiliser_high", "stabiliser too high")
          .announced(Annunciation.of(LOW).deadband(10, " mg/L"))
          .advice(
              "Test it; replace part of the water, and stop stabilised tablets. Until then free chlorine does little, and tests"
                  + " of alkalinity and pH mislead (common practice, no source).")),
  CHLORINE_HOUR_CAP(
      row("chlorine_hour_cap", "chlorine cap of 60 minutes reached")
          .inhibits(CHLORINE)
          .advice("As much as the installer allows has been given in the last hour.")),
  CHLORINE_DAY_CAP(
      row("chlorine_day_cap", "chlorine cap of 24 hours reached")
          .inhibits(CHLORINE)
          .priority(MEDIUM)
          .advice("Unusual demand, a weak output, or a probe that reads low: test by hand.")),
  CHLORINE_LONGEST_RUN(
      row("chlorine_longest_run", "chlorine on for its longest run, until it has rested")
          .inhibits(CHLORINE)
          .advice(
              "It rests after chlorine.longest_run, for chlorine.rest; normal where a cell runs at full duty.")),
  ACID_HOUR_CAP(
      row("acid_hour_cap", "acid cap of 60 minutes reached")
          .inhibits(ACID)
          .advice("As much as the installer allows has been given in the last hour.")),
  ACID_DAY_CAP(
      row("acid_day_cap", "acid cap of 24 hours reached")
          .inhibits(ACID)
          .priority(MEDIUM)
          .advice(
              "pH rises faster than usual, the acid is weak, or the probe drifts: test by hand.")),
  ACID_LONGEST_RUN(
      row("acid_longest_run", "acid on for its longest run, until it has rested")
          .inhibits(ACID)
          .advice("It rests after acid.longest_run, for acid.rest.")),
  CHLORINE_NOT_BOOKED(
      row("chlorine_not_booked", "next chlorine dose not yet in the ledger")
          .inhibits(CHLORINE)
          .advice("A dose is written down before it is given.")),
  ACID_NOT_BOOKED(
      row("acid_not_booked", "next acid dose not yet in the ledger")
          .inhibits(ACID)
          .advice("A dose is written down before it is given.")),
  LEDGER_FAILING(
      row("ledger_failing", "ledger cannot be written")
          .priority(HIGH)
          .advice("Disk full, card worn or read-only: dosing ends with the doses already booked.")),
  ACCOUNT_UNKNOWN(
      row("account_unknown", "doses of the last 24 hours not known")
          .priority(HIGH)
          .advice(
              "The ledger was damaged and is set aside, or its state could not be read. The caps count as used"
                  + " up until 24 hours have passed; test by hand. Power cuts and worn cards do this.")),
  ACID_RECENT(
      row("acid_recent", "acid fed a short time ago")
          .inhibits(CHLORINE)
          .advice("Chlorine and acid keep apart in time: mixed they give chlorine gas.")),
  CHLORINE_RECENT(
      row("chlorine_recent", "chlorine fed a short time ago")
          .inhibits(ACID)
          .advice("Chlorine and acid keep apart in time: mixed they give chlorine gas.")),
  TANK_LOW(
      row("tank_low", "chlorine tank low")
          .inhibits(CHLORINE)
          .releasedAfter(Delay.OFF_S)
          .announced(Annunciation.of(MEDIUM).goneAfter(300))
          .advice("Refill with the same chemical only, or the switch or its cable is at fault.")),
  ACID_TANK_LOW(
      row("acid_tank_low", "acid tank low")
          .inhibits(ACID)
          .releasedAfter(Delay.OFF_S)
          .announced(Annunciation.of(MEDIUM).goneAfter(300))
          .advice("Refill, or the switch or its cable is at fault.")),
  CELL_CURRENT_UNEXPECTED(
      row("cell_current_unexpected", "cell current while chlorine is off")
          .inhibits(CHLORINE, ACID)
          .after(15)
          .latches()
          .priority(CRITICAL)
          .advice(
              "A relay that sticks makes chlorine and hydrogen unasked: cut the cell's power by hand.")),
  CELL_CURRENT_MISSING(
      row("cell_current_missing", "no cell current in 6 minutes of chlorine on")
          .after(360)
          .announced(Annunciation.of(HIGH).atOnce())
          .advice("Cell worn or scaled, salt low, fuse, cable or relay.")),
  CELL_CURRENT_LOW(
      row("cell_current_low", "cell current lower than salt and temperature let expect")
          .after(600)
          .priority(MEDIUM)
          .advice(
              "Salt low, cell scaled or worn, or a bad connection: test salt first, then look at the plates.")),
  CELL_OVER_CURRENT(
      row("cell_over_current", "cell current above its limit")
          .inhibits(CHLORINE)
          .after(10)
          .latches()
          .priority(HIGH)
          .advice(
              "Salt far too high, plates bridged by scale or bent, or a short in cell or cable: cut its power and look before the reset.")),
  OUTPUT_NOT_DRIVEN(
      row("output_not_driven", "an output could not be driven")
          .inhibits(CHLORINE, ACID)
          .priority(CRITICAL)
          .advice(
              "Board, line or permission at fault; the log names it. Make sure by eye that the outputs are off.")),
  CLOCK_NOT_TRUSTED(
      row("clock_not_trusted", "wall clock not trusted")
          .after(600)
          .announced(Annunciation.of(LOW).atOnce())
          .advice(
              "No time server yet: pump windows and sun may be wrong; limits do not depend on it.")),
  CONFIGURATION_CHANGED(
      row("configuration_changed", "configuration changed")
          .priority(LOW)
          .advice(
              "Since the last run options were changed that have to do with control: make sure that it was meant. Reported for a day.")),
  ESTIMATE_LOST(
      row("estimate_lost", "ORP contradicts the estimate")
          .limits(CHLORINE)
          .priority(HIGH)
          .advice(
              "ORP has shown something else than the doses and the tests say. The probe was exchanged, has"
                  + " come off or is fouled, chlorine was added by hand, or the output gives nothing: test the"
                  + " water and enter it, then clean and check the probe.")),
  ESTIMATE_UNSURE(
      row("estimate_unsure", "free chlorine hardly known")
          .priority(MEDIUM)
          .advice(
              "No test was entered, the last one is long ago, or the probe drifts: test the water and enter"
                  + " it; then clean and check the probe.")),
  CHLORINE_DOUBTFUL(
      row("chlorine_doubtful", "the chlorine of the water may be gone")
          .announced(Annunciation.of(HIGH).atOnce())
          .advice(
              "For a day free chlorine may have been below 1 mg/L, by what is known of it. Nobody bathes until it is tested:"
                  + " test the water and enter it.")),
  CHLORINE_USED_UP(
      row("chlorine_used_up", "the last test found next to no chlorine")
          .announced(Annunciation.of(HIGH).atOnce())
          .advice(
              "Nobody bathes. The output feeds what its limits allow: test daily and enter it, superchlorinate if the water is"
                  + " green or cloudy, and look at what feeds. A test of 0.5 mg/L or more ends it.")),
  STARVED_BY_ORP(
      row("starved_by_orp", "ORP alone has kept the feed low for a day")
          .announced(Annunciation.of(HIGH).atOnce())
          .advice(
              "Doses and tests call for at least twice as much as ORP lets feed, so half of that is fed now. Test the water and"
                  + " enter it; then clean and check the probe.")),
  OUTPUT_TOO_SMALL(
      row("output_too_small", "output too small for what the pool uses")
          .priority(HIGH)
          .advice(
              "Run the pump longer, or look for what uses the chlorine (too little stabiliser, algae, many"
                  + " people) and for what the output does not give (worn or scaled cell, low salt, old"
                  + " chlorine).")),
  TEST_DUE(
      row("test_due", "water test wanted")
          .priority(LOW)
          .advice(
              "Test the water by hand and enter the result: what is known of free chlorine rests on it.")),
  TEST_OVERDUE(
      row("test_overdue", "no water test for too long")
          .priority(MEDIUM)
          .advice(
              "Whatever the probes say, a person has to look: test free chlorine by hand and enter the result.")),
  COMBINED_CHLORINE_HIGH(
      row("combined_chlorine_high", "combined chlorine above 0.5 mg/L at the last test")
          .priority(LOW)
          .advice(
              "Spent chlorine that irritates and disinfects little: superchlorinate with nobody in the"
                  + " water, then test again."));

  @SuppressWarnings("ImmutableEnumChecker") // a record of numbers and texts
  private final CauseRow row;

  Cause(CauseRow row) {
    this.row = row;
  }

  public String id() {
    return row.id();
  }

  public String title() {
    return row.title();
  }

  public Effect on(Output output) {
    return switch (output) {
      case CHLORINE -> row.onChlorine();
      case ACID -> row.onAcid();
    };
  }

  /** How long the condition must last before the cause becomes active, s. */
  public double delayS() {
    return row.delayS();
  }

  /** How long the condition must be gone before the cause ends, s: a float switch may bob. */
  public double delayOffS() {
    return row.delayOffS();
  }

  /** Whether its effects stay until a manual reset. */
  public boolean latching() {
    return row.latching();
  }

  public Priority priority() {
    return row.annunciation().priority();
  }

  /** How it becomes an alarm: delays and deadband. */
  public Annunciation annunciation() {
    return row.annunciation();
  }

  /** Likely reasons and the remedy, for the person who reads the alarm. */
  public String advice() {
    return row.advice();
  }

  public static Optional<Cause> ofId(String id) {
    return Arrays.stream(values()).filter(cause -> cause.id().equals(id)).findFirst();
  }

  /** An enum's static fields are not yet initialised when its constants are created. */
  private static final class Delay {
    /** Off delay for a float switch in waves, or a cover that moves (engineering judgement), s. */
    static final double OFF_S = 60;
  }
}
