package limnostat.faults;

import java.time.ZoneOffset;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import limnostat.account.DoseCaps;
import limnostat.actuate.Output;
import limnostat.actuate.OutputSettings;
import limnostat.actuate.OutputSettings.Drive;
import limnostat.control.ControlSettings;
import limnostat.control.ControlSettings.PumpWindow;
import limnostat.estimate.EstimateSettings;
import limnostat.estimate.SlowSettings;
import limnostat.measure.CalibrationAge;
import limnostat.measure.FlowSensor;
import limnostat.measure.MeasureSettings;
import limnostat.measure.PhCalibration;
import limnostat.measure.ProbeSettings;
import limnostat.measure.PumpSign;
import limnostat.measure.Role;
import limnostat.safety.ProcessLimits;
import limnostat.safety.RunLimits;
import limnostat.safety.SafetyLimits;
import limnostat.scan.ScanSettings;
import limnostat.scan.ScanSettings.Channel;
import limnostat.water.ChlorineForm;

/**
 * How a bench starts.
 *
 * @param output the output that feeds when the fault is made
 * @param longestRunS longest time that an output may be on without a break, s
 */
record Setup(
    Output output, DoseCaps chlorine, DoseCaps acid, double longestRunS, Configured configured) {
  private static final double DAY_S = 86_400;

  /**
   * The part of the configuration that a person may change.
   *
   * @param phCalibrated time of the pH calibration, Unix s
   * @param pumpHours when the pump should run; if there are any, the pump has no contact
   */
  record Configured(
      PhCalibration ph,
      double phCalibrated,
      List<PumpWindow> pumpHours,
      double testOverdueS,
      double blindFeedMgL) {
    private static final Configured USUAL =
        new Configured(PhCalibration.IDEAL, FaultBench.START_UNIX_S, List.of(), 14 * DAY_S, 5);

    Configured withPhSlope(double fraction) {
      return new Configured(
          new PhCalibration(0, fraction), phCalibrated, pumpHours, testOverdueS, blindFeedMgL);
    }

    Configured withPhCalibrated(double unixTimeS) {
      return new Configured(ph, unixTimeS, pumpHours, testOverdueS, blindFeedMgL);
    }

    Configured withPumpHours(PumpWindow... next) {
      return new Configured(ph, phCalibrated, List.of(next), testOverdueS, blindFeedMgL);
    }

    Configured withTestOverdueS(double next) {
      return new Configured(ph, phCalibrated, pumpHours, next, blindFeedMgL);
    }

    Configured withBlindFeedMgL(double next) {
      return new Configured(ph, phCalibrated, pumpHours, testOverdueS, next);
    }

    /** In the form in which the program compares the files of two runs. */
    Map<String, String> options() {
      return Map.of(
          "ph.buffers", ph.toString(),
          "ph.calibrated", Double.toString(phCalibrated),
          "pump.hours", pumpHours.toString(),
          "limits.test_overdue", Double.toString(testOverdueS),
          "limits.blind_feed", Double.toString(blindFeedMgL));
    }
  }

  private static final DoseCaps CHLORINE_CAPS = new DoseCaps(20, 20, 160, 1);
  private static final DoseCaps ACID_CAPS = new DoseCaps(1500, 200, 600, 10);

  /** The simulated cell draws 3.8 A. */
  private static final ProcessLimits PROCESS =
      new ProcessLimits(4, OptionalDouble.of(6), OptionalDouble.of(3.8), 0);

  static final Setup CHLORINE = chlorine(20, 160);
  static final Setup ACID =
      new Setup(Output.ACID, CHLORINE_CAPS, ACID_CAPS, DAY_S, Configured.USUAL);

  static Setup chlorine(double hourCapG, double dayCapG) {
    DoseCaps caps = new DoseCaps(20, hourCapG, dayCapG, 1);
    return new Setup(Output.CHLORINE, caps, ACID_CAPS, DAY_S, Configured.USUAL);
  }

  static Setup acid(double hourCapMl, double dayCapMl) {
    DoseCaps caps = new DoseCaps(1500, hourCapMl, dayCapMl, 10);
    return new Setup(Output.ACID, CHLORINE_CAPS, caps, DAY_S, Configured.USUAL);
  }

  Setup withLongestRunS(double next) {
    return new Setup(output, chlorine, acid, next, configured);
  }

  Setup with(Configured next) {
    return new Setup(output, chlorine, acid, longestRunS, next);
  }

  DoseCaps caps() {
    return output == Output.CHLORINE ? chlorine : acid;
  }

  ScanSettings settings() {
    return new ScanSettings(
        measure(),
        new EstimateSettings(
            50, 46, 8, SlowSettings.configured(30, 3500, ChlorineForm.SALT_CELL, 1), 2, 2),
        new ControlSettings(3, 7.4, ZoneOffset.UTC, configured.pumpHours),
        new SafetyLimits(
            800,
            5,
            10,
            6.8,
            8.0,
            10,
            40,
            60,
            300,
            configured.blindFeedMgL,
            new ProcessLimits(
                PROCESS.noResponseMgL(),
                PROCESS.cellMaxA(),
                PROCESS.cellUsualA(),
                configured.testOverdueS),
            RunLimits.USUAL),
        new Channel(
            new OutputSettings(Drive.RELAY, 600, 60, 60, Math.min(DAY_S, longestRunS), 300),
            chlorine),
        new Channel(
            new OutputSettings(Drive.RELAY, 600, 10, 60, Math.min(900, longestRunS), 1800), acid));
  }

  private MeasureSettings measure() {
    return new MeasureSettings(
        new ProbeSettings(100, 1000, 5, 0.05, 3600, 60),
        0,
        new ProbeSettings(4, 10, 0.05, 0.0005, 3600, 60),
        configured.ph,
        new ProbeSettings(-2, 50, 0.2, 0.01, 0, 60),
        25,
        new FlowSensor.Switch(),
        180,
        fitted(),
        CalibrationAge.NOT_TOLD,
        new CalibrationAge(OptionalDouble.of(configured.phCalibrated), 90 * DAY_S),
        pumpContact() ? PumpSign.CONTACT : PumpSign.NONE);
  }

  private boolean pumpContact() {
    return configured.pumpHours.isEmpty();
  }

  private Set<Role> fitted() {
    EnumSet<Role> fitted =
        EnumSet.of(
            Role.ORP_MV,
            Role.PH_MV,
            Role.WATER_C,
            Role.FLOW,
            Role.CELL_A,
            Role.TANK_LOW,
            Role.ACID_TANK_LOW,
            Role.COVER_CLOSED);
    if (pumpContact()) {
      fitted.add(Role.PUMP_ON);
    }
    return fitted;
  }
}
