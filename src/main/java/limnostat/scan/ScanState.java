package limnostat.scan;

import java.util.EnumMap;
import java.util.Map;
import limnostat.account.DoseTotals;
import limnostat.actuate.Output;
import limnostat.alarm.Alarms;
import limnostat.alarm.Annunciator;
import limnostat.control.ControlState;
import limnostat.estimate.Additions;
import limnostat.estimate.EstimateState;
import limnostat.estimate.Estimator;
import limnostat.estimate.SunOnWater;
import limnostat.measure.MeasureState;
import limnostat.safety.Cause;
import limnostat.safety.RunHealth;
import limnostat.safety.SafetyState;

/**
 * Everything that a scan hands to the next. Once saved and restored, it continues as if nothing had
 * happened.
 *
 * @param phase what preceded the next scan
 * @param sun what is known about the sun on the water
 * @param annunciator what is stored about all alarms together
 * @param totals what was given today and this season
 * @param asked requests by people that outlast a scan
 */
public record ScanState(
    Phase phase,
    MeasureState measure,
    EstimateState estimate,
    ControlState control,
    SafetyState safety,
    OutputState chlorine,
    OutputState acid,
    Map<Cause, Alarms.Entry> alarms,
    SunOnWater sun,
    Annunciator annunciator,
    DoseTotals totals,
    StandingRequests asked) {

  /** Without any standing requests. */
  public ScanState(
      Phase phase,
      MeasureState measure,
      EstimateState estimate,
      ControlState control,
      SafetyState safety,
      OutputState chlorine,
      OutputState acid,
      Map<Cause, Alarms.Entry> alarms,
      SunOnWater sun,
      Annunciator annunciator,
      DoseTotals totals) {
    this(
        phase,
        measure,
        estimate,
        control,
        safety,
        chlorine,
        acid,
        alarms,
        sun,
        annunciator,
        totals,
        StandingRequests.NOTHING);
  }

  /**
   * What preceded a scan. After anything but a scan the outputs stay off for one scan, and flow
   * must be proven again.
   */
  public enum Phase {
    /** Nothing: this is the first scan ever. */
    FIRST,
    /** Another scan. */
    RUNNING,
    /** Outputs switched off outside a scan. */
    STOPPED,
    /** Another process, known from the ledger: what it booked and did not prove counts as given. */
    RESUMED
  }

  /** The state before the first scan ever. */
  public static ScanState start(ScanSettings settings) {
    double targetMgL = settings.control().freeChlorineTargetMgL();
    return new ScanState(
        Phase.FIRST,
        MeasureState.START,
        Estimator.start(settings.estimate(), targetMgL),
        ControlState.start(targetMgL),
        SafetyState.START,
        OutputState.start(settings.chlorine()),
        OutputState.start(settings.acid()),
        Map.of(),
        SunOnWater.START,
        Annunciator.QUIET,
        DoseTotals.START);
  }

  /**
   * A saved state in a new process: outputs are off; what was learned, latched and chosen stays.
   */
  public ScanState resumed(ScanSettings settings) {
    return new ScanState(
        Phase.RESUMED,
        measure.interrupted(0),
        estimate.resumed(settings.estimate()),
        control.resumed(
            settings.control().freeChlorineTargetMgL(),
            settings.limits().targetMaxMgL(),
            settings.limits().superchlorinationMaxMgL(),
            settings.setpoints().manualDutyMax(),
            settings.setpoints().superchlorinationMaxS()),
        safety.resumed(ended()),
        chlorine.resumed(settings.chlorine(), phase == Phase.STOPPED),
        acid.resumed(settings.acid(), phase == Phase.STOPPED),
        Alarms.resumed(alarms, settings.setpoints().shelfMaxS()),
        sun,
        annunciator,
        totals,
        new StandingRequests(
            asked.answers(),
            asked
                .manual()
                .within(settings.setpoints().manualMaxS(), settings.setpoints().manualDutyMax()),
            asked.calibrations().resumed(settings.measure()),
            asked.additions()));
  }

  /** Called when a process starts with these options; see {@link limnostat.safety.Configured}. */
  public ScanState configuredBy(Map<String, String> options) {
    return withSafety(safety.with(safety.watched().configuredBy(options)));
  }

  /** How the process that saved this state ended. Without a ledger this is unknown. */
  private RunHealth.Owed ended() {
    return switch (phase) {
      case FIRST -> safety.run().unknownS() > 0 ? RunHealth.Owed.CRASH : RunHealth.Owed.NOTHING;
      case STOPPED -> RunHealth.Owed.ORDERLY;
      case RUNNING, RESUMED -> RunHealth.Owed.CRASH;
    };
  }

  /**
   * An orderly end of the process: the outputs are off, and what they gave since the last scan is
   * counted.
   *
   * @param elapsedS from the last scan until they were off, s
   */
  public ScanState stopped(ScanSettings settings, double elapsedS) {
    return new ScanState(
        Phase.STOPPED,
        measure,
        estimate,
        control,
        safety,
        chlorine.stopped(settings.chlorine().caps(), elapsedS),
        acid.stopped(settings.acid().caps(), elapsedS),
        alarms,
        sun,
        annunciator,
        totals,
        asked);
  }

  /** The outputs were switched off outside a scan; the next is the first after an interruption. */
  public ScanState stopped() {
    return new ScanState(
        Phase.STOPPED,
        measure,
        estimate,
        control,
        safety,
        chlorine,
        acid,
        alarms,
        sun,
        annunciator,
        totals,
        asked);
  }

  /** A state whose account cannot be proven: both caps count as used up. */
  public ScanState accountUnknown(ScanSettings settings) {
    return new ScanState(
        phase,
        measure,
        estimate,
        control,
        safety.withRun(safety.run().accountUnknown()),
        chlorine.accountUnknown(settings.chlorine()),
        acid.accountUnknown(settings.acid()),
        alarms,
        sun,
        annunciator,
        totals,
        asked);
  }

  /** A copy with other alarms added, unchanged, where this state has none. */
  public ScanState alsoWith(Map<Cause, Alarms.Entry> others) {
    Map<Cause, Alarms.Entry> both = new EnumMap<>(Cause.class);
    both.putAll(others);
    both.putAll(alarms);
    return withAlarms(both);
  }

  public OutputState of(Output output) {
    return switch (output) {
      case CHLORINE -> chlorine;
      case ACID -> acid;
    };
  }

  ScanState withMeasure(MeasureState next) {
    return new ScanState(
        phase,
        next,
        estimate,
        control,
        safety,
        chlorine,
        acid,
        alarms,
        sun,
        annunciator,
        totals,
        asked);
  }

  ScanState withEstimate(EstimateState next) {
    return new ScanState(
        phase,
        measure,
        next,
        control,
        safety,
        chlorine,
        acid,
        alarms,
        sun,
        annunciator,
        totals,
        asked);
  }

  ScanState withControl(ControlState next) {
    return new ScanState(
        phase,
        measure,
        estimate,
        next,
        safety,
        chlorine,
        acid,
        alarms,
        sun,
        annunciator,
        totals,
        asked);
  }

  /** Counts down a running function check. */
  ScanState checkPassed(double elapsedS) {
    return safety.watched().checking()
        ? withSafety(safety.with(safety.watched().checkPassed(elapsedS)))
        : this;
  }

  /** Advances time for what people put in. */
  ScanState additionsPassed(double elapsedS) {
    if (asked.additions().resting()) {
      return this;
    }
    Additions.Moved moved = asked.additions().step(estimate, elapsedS);
    return withEstimate(moved.estimate()).withAsked(asked.with(moved.additions()));
  }

  ScanState withSafety(SafetyState next) {
    return new ScanState(
        phase,
        measure,
        estimate,
        control,
        next,
        chlorine,
        acid,
        alarms,
        sun,
        annunciator,
        totals,
        asked);
  }

  ScanState withAlarms(Map<Cause, Alarms.Entry> next) {
    return new ScanState(
        phase,
        measure,
        estimate,
        control,
        safety,
        chlorine,
        acid,
        next,
        sun,
        annunciator,
        totals,
        asked);
  }

  ScanState withSun(SunOnWater next) {
    return new ScanState(
        phase,
        measure,
        estimate,
        control,
        safety,
        chlorine,
        acid,
        alarms,
        next,
        annunciator,
        totals,
        asked);
  }

  ScanState withTotals(DoseTotals next) {
    return new ScanState(
        phase,
        measure,
        estimate,
        control,
        safety,
        chlorine,
        acid,
        alarms,
        sun,
        annunciator,
        next,
        asked);
  }

  ScanState withAsked(StandingRequests next) {
    return new ScanState(
        phase,
        measure,
        estimate,
        control,
        safety,
        chlorine,
        acid,
        alarms,
        sun,
        annunciator,
        totals,
        next);
  }
}
