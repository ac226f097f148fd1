package limnostat.safety;

import java.util.EnumSet;
import java.util.Set;
import limnostat.actuate.Output;
import limnostat.estimate.Estimate;
import limnostat.estimate.TestDue;
import limnostat.estimate.TestLog;
import limnostat.measure.Measurement;
import limnostat.measure.Measurements;
import limnostat.measure.Status;

/**
 * Which conditions of the matrix hold on this scan. A missing input counts as the cause being
 * present.
 */
final class Detection {
  /** Cell current above which the cell counts as working, A (engineering judgement). */
  private static final double CELL_CURRENT_A = 0.3;

  /**
   * Stabiliser at and above which it counts as high, mg/L. This is the highest limit in any code,
   * that of Montana (water-chemistry section 10, checked). The row's deadband ends the cause below
   * the next lower code limit, 90 in the MAHC (from memory). Other codes have 50 and 60 for public
   * pools. Above 80 the minimum free chlorine, a twentieth of the stabiliser, exceeds the 4 mg/L in
   * which people may bathe by US labels (from memory).
   */
  private static final double STABILISER_HIGH_MG_L = 100;

  /**
   * Combined chlorine above which it counts as high, mg/L: the limit of Montana, and of Quebec for
   * indoor pools (water-chemistry section 7, checked; others require 0.2 to 1.0).
   */
  private static final double COMBINED_CHLORINE_MG_L = 0.5;

  /**
   * Shares of the expected current: below the first the cell current is low, and from the second on
   * it is no longer low (engineering judgement: salt of 2400 instead of 3400 mg/L).
   */
  private static final double CELL_CURRENT_LOW = 0.7;

  private static final double CELL_CURRENT_LOW_GONE = 0.8;

  /** ORP this far below its setpoint contradicts a high estimate, mV (engineering judgement). */
  private static final double FAR_BELOW_MV = 60;

  private Detection() {}

  static Set<Cause> detect(
      SafetyLimits limits,
      Observed seen,
      Set<Cause> before,
      Set<Cause> activeBefore,
      double sinceChlorineS,
      double sinceAcidS,
      BlindFeed blind,
      RunHealth run) {
    EnumSet<Cause> present = EnumSet.noneOf(Cause.class);
    Measurements m = seen.measured();

    add(present, Cause.INTERRUPTED, seen.interrupted());
    add(present, Cause.RESTART_LOOP, run.looping());
    add(present, Cause.SCAN_OVERRUN, run.overrunning());
    add(present, Cause.MODE_OFF, seen.off());
    add(present, Cause.NO_FLOW, !m.flow());
    add(present, Cause.FLOW_NOT_PROVEN, m.flow() && m.flowS() < limits.flowProvingS());
    // The person who runs a function check knows what the water does.
    boolean unattended = !seen.plant().functionCheck();
    add(present, Cause.FLOW_MISSING, unattended && seen.pumpWanted() && !m.flow());
    // If the pump is known to be off, another row covers such flow.
    boolean byHand = m.pumpOn().orElse(false) || seen.pumpRests();
    add(present, Cause.FLOW_UNASKED, unattended && !seen.pumpWanted() && m.flow() && !byHand);
    add(present, Cause.FLOW_STUCK, flowStuck(seen, activeBefore.contains(Cause.FLOW_STUCK)));
    add(present, Cause.PUMP_OFF, !m.pumpOn().orElse(true));
    add(present, Cause.STANDING_WATER, unattended && m.flow() && !m.poolWater());
    add(present, Cause.FUNCTION_CHECK, seen.plant().functionCheck());
    add(present, Cause.COVER_CLOSED, seen.plant().coverClosed());

    add(present, Cause.ORP_FAILURE, failed(m.orpMv()));
    add(present, Cause.PH_FAILURE, failed(m.ph()));
    add(present, Cause.WATER_FAILURE, failed(m.waterC()));
    add(present, Cause.PH_DISAGREES, m.upkeep().phDisagrees());
    add(present, Cause.WATER_DISAGREES, m.upkeep().waterDisagrees());
    add(present, Cause.PH_UNEXPLAINED, m.upkeep().phUnexplained());
    add(present, Cause.PROBE_WORN, m.upkeep().worn());
    add(present, Cause.CALIBRATION_DUE, m.upkeep().calibrationDue());
    add(present, Cause.FEEDING_BLIND, blind.blind());
    add(present, Cause.BLIND_FEED_LOW, blind.low(limits.blindFeedMgL()));
    add(present, Cause.BLIND_FEED_SPENT, blind.spent(limits.blindFeedMgL()));

    above(present, before, Cause.WATER_HOT, m.waterC(), limits.waterMaxC());
    below(present, before, Cause.WATER_COLD, m.waterC(), limits.waterMinC());
    above(present, before, Cause.PH_HIGH, m.ph(), limits.phDosingMax());
    below(present, before, Cause.PH_LOW, m.ph(), limits.phDosingMin());
    above(present, before, Cause.ORP_HIGH, m.orpMv(), limits.orpHighMv());

    double highMgL =
        seen.superchlorinating() ? limits.superchlorinationMaxMgL() : limits.freeChlorineHighMgL();
    double deadbandMgL =
        before.contains(Cause.FREE_CHLORINE_HIGH)
            ? Cause.FREE_CHLORINE_HIGH.annunciation().deadband()
            : 0;
    add(
        present,
        Cause.FREE_CHLORINE_HIGH,
        highByEstimate(seen, highMgL - deadbandMgL) || seen.judged().doubtedMgL() >= highMgL);

    Observed.Stabiliser stabiliser = seen.stabiliser();
    add(
        present,
        Cause.TARGET_LOW_FOR_STABILISER,
        stabiliser.targetMgL() < stabiliser.leastFreeChlorineMgL());
    double goneMgL = STABILISER_HIGH_MG_L - Cause.STABILISER_HIGH.annunciation().deadband();
    boolean wasHigh = before.contains(Cause.STABILISER_HIGH);
    add(
        present,
        Cause.STABILISER_HIGH,
        stabiliser.mgL() >= (wasHigh ? goneMgL : STABILISER_HIGH_MG_L));

    Observed.Dose chlorine = seen.account().get(Output.CHLORINE);
    add(present, Cause.CHLORINE_HOUR_CAP, chlorine.hourReached());
    add(present, Cause.CHLORINE_DAY_CAP, chlorine.dayReached());
    add(present, Cause.CHLORINE_NOT_BOOKED, !chlorine.booked());
    rest(present, before, Cause.CHLORINE_LONGEST_RUN, seen.plant().runs().get(Output.CHLORINE));
    Observed.Dose acid = seen.account().get(Output.ACID);
    if (acid != null) {
      add(present, Cause.ACID_HOUR_CAP, acid.hourReached());
      add(present, Cause.ACID_DAY_CAP, acid.dayReached());
      add(present, Cause.ACID_NOT_BOOKED, !acid.booked());
      rest(present, before, Cause.ACID_LONGEST_RUN, seen.plant().runs().get(Output.ACID));
      add(present, Cause.ACID_RECENT, sinceAcidS < limits.separationS());
      add(present, Cause.CHLORINE_RECENT, sinceChlorineS < limits.separationS());
      add(present, Cause.ACID_TANK_LOW, m.acidTankLow());
    }
    add(present, Cause.LEDGER_FAILING, seen.ledgerFailing());
    add(present, Cause.ACCOUNT_UNKNOWN, run.unknownS() > 0);
    add(present, Cause.TANK_LOW, m.tankLow());

    if (m.cellA().isPresent()) {
      double cellA = m.cellA().getAsDouble();
      boolean read = Double.isFinite(cellA);
      boolean current = cellA > CELL_CURRENT_A;
      boolean on = seen.last().get(Output.CHLORINE) > 0;
      // Without a reading nothing is known to have changed, so an active cause cannot be reset.
      Cause unexpected = Cause.CELL_CURRENT_UNEXPECTED;
      add(present, unexpected, read ? current && !on : before.contains(unexpected));
      Cause missing = Cause.CELL_CURRENT_MISSING;
      add(present, missing, before.contains(missing) ? !current : read && !current && on);
      cell(present, before, limits.process(), seen, cellA);
    }
    add(present, Cause.OUTPUT_NOT_DRIVEN, !seen.outputsDriven());
    add(present, Cause.CLOCK_NOT_TRUSTED, !seen.clockTrusted());

    add(present, Cause.ESTIMATE_LOST, seen.estimate().consistency().lost());
    add(present, Cause.ESTIMATE_UNSURE, seen.judged().longUnsure());
    add(present, Cause.CHLORINE_DOUBTFUL, seen.judged().longGone());
    add(present, Cause.CHLORINE_USED_UP, seen.judged().testedMgL() < TestLog.USED_UP_MG_L);
    add(present, Cause.STARVED_BY_ORP, seen.judged().longStarved());
    add(present, Cause.OUTPUT_TOO_SMALL, seen.judged().outputTooSmall());
    boolean overdue = seen.plant().testAgeS() > limits.process().testOverdueS();
    add(present, Cause.TEST_OVERDUE, overdue);
    // The overdue alarm reports the same at a higher priority.
    TestDue due = seen.estimate().testDue();
    add(present, Cause.TEST_DUE, due != TestDue.NONE && !(overdue && due == TestDue.UNCERTAIN));
    add(present, Cause.CONFIGURATION_CHANGED, seen.plant().configurationChanged());
    add(
        present,
        Cause.COMBINED_CHLORINE_HIGH,
        seen.judged().combinedChlorineMgL() > COMBINED_CHLORINE_MG_L);
    return present;
  }

  /**
   * Whether a trustworthy estimate is at the high limit (S9). An estimate is not trustworthy if it
   * contradicts a good ORP far below its setpoint or a low manual test. Nor is it trustworthy if
   * doses and tests rule out that much chlorine.
   */
  private static boolean highByEstimate(Observed seen, double limitMgL) {
    Estimate estimate = seen.estimate();
    if (Double.isNaN(estimate.freeChlorineMgL())) {
      return true; // the filter itself is at fault
    }
    boolean high = estimate.freeChlorineMgL() >= limitMgL;
    boolean lowOrp =
        seen.measured().orpMv() instanceof Measurement.Value orp
            && orp.fresh()
            && orp.value() < estimate.orpSetpointMv() - FAR_BELOW_MV;
    boolean cannotBe = estimate.residual().mostByBalanceMgL() < limitMgL;
    boolean surely =
        estimate.trusted() || estimate.freeChlorineMgL() - estimate.freeChlorineSdMgL() > limitMgL;
    boolean testedLow = estimate.usedUp() > 0;
    return high && surely && !lowOrp && !cannotBe && !testedLow;
  }

  /** Present from the end of the longest run until the output has rested. */
  private static void rest(Set<Cause> present, Set<Cause> before, Cause cause, Observed.Run run) {
    add(present, cause, run.over() || (before.contains(cause) && !run.rested()));
  }

  /** Compares the cell current with its limit and with the expected current. */
  private static void cell(
      Set<Cause> present, Set<Cause> before, ProcessLimits limits, Observed seen, double cellA) {
    boolean read = Double.isFinite(cellA);
    Cause over = Cause.CELL_OVER_CURRENT;
    boolean wasOver = before.contains(over);
    add(
        present,
        over,
        limits.cellMaxA().isPresent()
            && (read ? cellA > limits.cellMaxA().getAsDouble() : wasOver));
    Cause low = Cause.CELL_CURRENT_LOW;
    boolean wasLow = before.contains(low);
    double output = seen.last().get(Output.CHLORINE);
    // Another row covers no current at all; an output that is off proves nothing.
    boolean tells = read && output > 0 && cellA > CELL_CURRENT_A;
    boolean isLow =
        limits.cellUsualA().isPresent()
            && cellA
                < (wasLow ? CELL_CURRENT_LOW_GONE : CELL_CURRENT_LOW)
                    * ProcessLimits.expectedA(
                        limits.cellUsualA().getAsDouble(),
                        output,
                        seen.measured().waterC().orElse(25));
    add(present, low, limits.cellUsualA().isPresent() && (tells ? isLow : wasLow));
  }

  /** Once active, it stays until flow is seen to stop. A missing signal proves nothing. */
  private static boolean flowStuck(Observed seen, boolean stuck) {
    Measurements m = seen.measured();
    boolean stopped = !m.flow() && m.flowMissing().isEmpty();
    return (stuck && !stopped) || (seen.pumpRests() && m.flow());
  }

  private static boolean failed(Measurement measurement) {
    return measurement.status() == Status.FAILURE;
  }

  private static void add(Set<Cause> present, Cause cause, boolean holds) {
    if (holds) {
      present.add(cause);
    }
  }

  /**
   * Present at or above the limit, and then until the value is below the limit by the row's
   * deadband, so that noise does not toggle the cause. Unchanged without a usable value.
   */
  private static void above(
      Set<Cause> present, Set<Cause> before, Cause cause, Measurement measurement, double limit) {
    boolean was = before.contains(cause);
    add(
        present,
        cause,
        measurement instanceof Measurement.Value v
            ? v.value() >= (was ? limit - cause.annunciation().deadband() : limit)
            : was);
  }

  private static void below(
      Set<Cause> present, Set<Cause> before, Cause cause, Measurement measurement, double limit) {
    boolean was = before.contains(cause);
    add(
        present,
        cause,
        measurement instanceof Measurement.Value v
            ? v.value() <= (was ? limit + cause.annunciation().deadband() : limit)
            : was);
  }
}
