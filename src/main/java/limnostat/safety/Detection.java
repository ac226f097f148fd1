package limnostat.safety;

import java.util.EnumSet;
import java.util.Set;
import limnostat.actuate.Output;
import limnostat.estimate.TestDue;
import limnostat.measure.Measurement;
import limnostat.measure.Measurements;
import limnostat.measure.Status;

/**
 * Which conditions of the matrix hold on this scan. A missing input counts as the cause being
 * present.
 */
final class Detection {
  // A limit that has tripped is left again only by this much, so that noise does not switch
  // (engineering judgement).
  private static final double ORP_DEADBAND_MV = 10;
  private static final double FREE_CHLORINE_DEADBAND_MG_L = 0.3;
  private static final double PH_DEADBAND = 0.05;
  private static final double WATER_DEADBAND_C = 0.5;

  /** Cell current above which the cell is taken to work, A (engineering judgement). */
  private static final double CELL_CURRENT_A = 0.3;

  /**
   * Stabiliser from which on a person is told, mg/L: the highest limit of a code, Montana
   * (water-chemistry section 10, checked). Others have 50 and 60 for public pools; above 80 the
   * least free chlorine, 5 %, is more than the 4 mg/L in which people may bathe by US labels (from
   * memory).
   */
  private static final double STABILISER_HIGH_MG_L = 100;

  /** It is over below the next lower code: 90, MAHC (from memory). */
  private static final double STABILISER_HIGH_GONE_MG_L = 90;

  /**
   * Combined chlorine above which a person is told, mg/L: Montana, and Quebec indoors
   * (water-chemistry section 7, checked; others ask for 0.2 to 1.0).
   */
  private static final double COMBINED_CHLORINE_MG_L = 0.5;

  private Detection() {}

  static Set<Cause> detect(
      SafetyLimits limits,
      Observed seen,
      Set<Cause> before,
      double sinceChlorineS,
      double sinceAcidS,
      boolean fallbackExpired,
      RunHealth run) {
    EnumSet<Cause> present = EnumSet.noneOf(Cause.class);
    Measurements m = seen.measured();

    add(present, Cause.INTERRUPTED, seen.interrupted());
    add(present, Cause.RESTART_LOOP, run.looping());
    add(present, Cause.SCAN_OVERRUN, run.overrunning());
    add(present, Cause.MODE_OFF, seen.off());
    add(present, Cause.NO_FLOW, !m.flow());
    add(present, Cause.FLOW_NOT_PROVEN, m.flow() && m.flowS() < limits.flowProvingS());
    add(present, Cause.FLOW_MISSING, seen.pumpWanted() && !m.flow());
    add(present, Cause.PUMP_OFF, !m.pumpOn().orElse(true));
    add(present, Cause.STANDING_WATER, m.flow() && !m.poolWater());

    add(present, Cause.ORP_FAILURE, failed(m.orpMv()));
    add(present, Cause.PH_FAILURE, failed(m.ph()));
    add(present, Cause.WATER_FAILURE, failed(m.waterC()));
    add(present, Cause.FALLBACK_EXPIRED, fallbackExpired);

    above(present, before, Cause.WATER_HOT, m.waterC(), limits.waterMaxC(), WATER_DEADBAND_C);
    below(present, before, Cause.WATER_COLD, m.waterC(), limits.waterMinC(), WATER_DEADBAND_C);
    above(present, before, Cause.PH_HIGH, m.ph(), limits.phDosingMax(), PH_DEADBAND);
    below(present, before, Cause.PH_LOW, m.ph(), limits.phDosingMin(), PH_DEADBAND);
    above(present, before, Cause.ORP_HIGH, m.orpMv(), limits.orpHighMv(), ORP_DEADBAND_MV);

    double highMgL =
        seen.superchlorinating() ? limits.superchlorinationMaxMgL() : limits.freeChlorineHighMgL();
    double deadbandMgL =
        before.contains(Cause.FREE_CHLORINE_HIGH) ? FREE_CHLORINE_DEADBAND_MG_L : 0;
    add(
        present,
        Cause.FREE_CHLORINE_HIGH,
        !(seen.estimate().freeChlorineMgL() < highMgL - deadbandMgL)
            || seen.judged().doubtedMgL() >= highMgL);

    Observed.Stabiliser stabiliser = seen.stabiliser();
    add(
        present,
        Cause.TARGET_LOW_FOR_STABILISER,
        stabiliser.targetMgL() < stabiliser.leastFreeChlorineMgL());
    boolean wasHigh = before.contains(Cause.STABILISER_HIGH);
    add(
        present,
        Cause.STABILISER_HIGH,
        stabiliser.mgL() >= (wasHigh ? STABILISER_HIGH_GONE_MG_L : STABILISER_HIGH_MG_L));

    Observed.Dose chlorine = seen.account().get(Output.CHLORINE);
    add(present, Cause.CHLORINE_HOUR_CAP, chlorine.hourReached());
    add(present, Cause.CHLORINE_DAY_CAP, chlorine.dayReached());
    add(present, Cause.CHLORINE_NOT_BOOKED, !chlorine.booked());
    Observed.Dose acid = seen.account().get(Output.ACID);
    if (acid != null) {
      add(present, Cause.ACID_HOUR_CAP, acid.hourReached());
      add(present, Cause.ACID_DAY_CAP, acid.dayReached());
      add(present, Cause.ACID_NOT_BOOKED, !acid.booked());
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
      // Not read, nothing is known to have changed: what was there cannot be reset.
      Cause unexpected = Cause.CELL_CURRENT_UNEXPECTED;
      add(present, unexpected, read ? current && !on : before.contains(unexpected));
      Cause missing = Cause.CELL_CURRENT_MISSING;
      add(present, missing, read ? !current && on : before.contains(missing));
    }
    add(present, Cause.OUTPUT_NOT_DRIVEN, !seen.outputsDriven());
    add(present, Cause.CLOCK_NOT_TRUSTED, !seen.clockTrusted());

    add(present, Cause.ESTIMATE_LOST, seen.estimate().consistency().lost());
    add(present, Cause.ESTIMATE_UNSURE, seen.judged().longUnsure());
    add(present, Cause.OUTPUT_TOO_SMALL, seen.judged().outputTooSmall());
    add(present, Cause.TEST_DUE, seen.estimate().testDue() != TestDue.NONE);
    add(
        present,
        Cause.COMBINED_CHLORINE_HIGH,
        seen.judged().combinedChlorineMgL() > COMBINED_CHLORINE_MG_L);
    return present;
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
   * Present at or above the limit, and until below it by the deadband; unchanged without a usable
   * value.
   */
  private static void above(
      Set<Cause> present,
      Set<Cause> before,
      Cause cause,
      Measurement measurement,
      double limit,
      double deadband) {
    boolean was = before.contains(cause);
    add(
        present,
        cause,
        measurement instanceof Measurement.Value v
            ? v.value() >= (was ? limit - deadband : limit)
            : was);
  }

  private static void below(
      Set<Cause> present,
      Set<Cause> before,
      Cause cause,
      Measurement measurement,
      double limit,
      double deadband) {
    boolean was = before.contains(cause);
    add(
        present,
        cause,
        measurement instanceof Measurement.Value v
            ? v.value() <= (was ? limit + deadband : limit)
            : was);
  }
}
