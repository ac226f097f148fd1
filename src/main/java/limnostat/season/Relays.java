package limnostat.season;

import limnostat.actuate.Modulator;
import limnostat.actuate.Outputs;
import limnostat.measure.PhCalibration;
import limnostat.measure.Role;
import limnostat.measure.Signal;
import limnostat.measure.Signals;
import limnostat.scan.ScanSettings;
import limnostat.water.Nernst;

/**
 * The output stage that all peers share: the pump's windows, the flow interlock with its proving
 * time, and relays with the program's minimum times. If an acid output is fitted, it also has one
 * acid feeder controlled by the pH probe, so that all contestants work in similar water.
 */
final class Relays {
  // The acid feeder has the program's parameters, so that no peer gains an advantage.
  private static final double ACID_DEADBAND_PH = 0.1;
  private static final double ACID_INTERVAL_S = 2 * 3600.0;
  private static final double ACID_ML_M3_PH = 11;

  private final ScanSettings configured;
  private Modulator.State chlorine;
  private double flowS = -1;

  /** Time since acid was last fed, s. */
  private double sinceAcidS;

  /** Time since chlorine was last fed, s. */
  private double sinceChlorineS = Double.POSITIVE_INFINITY;

  private double acidLeftMl;
  private boolean acidOn;

  Relays(ScanSettings configured) {
    this.configured = configured;
    this.chlorine = Modulator.start(configured.chlorine().output());
  }

  /** Reads the flow. Call once per scan before anything else. */
  void see(Signals signals, double elapsedS) {
    boolean flows = signals.of(Role.FLOW) instanceof Signal.Contact contact && contact.closed();
    flowS = flows ? (flowS < 0 ? 0 : flowS + elapsedS) : -1;
  }

  /** Whether the probes see the pool's water. */
  boolean freshWater() {
    return flowS >= configured.measure().freshWaterS();
  }

  /** Whether the output may act. */
  boolean proven() {
    return flowS >= configured.limits().flowProvingS();
  }

  /**
   * @param duty requested duty of the chlorine output, 0–1
   */
  Outputs drive(double duty, Signals signals, double unixTimeS, double elapsedS) {
    sinceChlorineS = chlorine.on() ? 0 : sinceChlorineS + elapsedS;
    boolean acidTurn = acid(signals, elapsedS);
    chlorine =
        Modulator.step(
            configured.chlorine().output(), chlorine, duty, !proven() || acidTurn, elapsedS);
    return new Outputs(
        chlorine.output(), acidOn ? 1 : 0, configured.control().pumpWanted(unixTimeS));
  }

  /** Whether chlorine must stay off because of acid. */
  private boolean acid(Signals signals, double elapsedS) {
    if (!configured.acid().fitted()) {
      return false;
    }
    sinceAcidS = acidOn ? 0 : sinceAcidS + elapsedS;
    if (acidOn) {
      acidLeftMl -= configured.acid().caps().amount(1, elapsedS);
    } else if (acidLeftMl <= 0 && freshWater() && sinceAcidS >= ACID_INTERVAL_S) {
      double above = ph(signals) - configured.control().phTarget();
      if (above > ACID_DEADBAND_PH) {
        acidLeftMl = ACID_ML_M3_PH * configured.estimate().volumeM3() * above;
      }
    }
    boolean apart = sinceChlorineS >= configured.limits().separationS();
    acidOn = acidLeftMl > 0 && proven() && apart;
    return acidLeftMl > 0 || sinceAcidS < configured.limits().separationS();
  }

  private double ph(Signals signals) {
    PhCalibration calibration = configured.measure().phCalibration();
    double slopeMv =
        calibration.slopeFraction() * Nernst.slopeMvPerPh(analog(signals, Role.WATER_C));
    return 7 - (analog(signals, Role.PH_MV) - calibration.offsetMv()) / slopeMv;
  }

  static double analog(Signals signals, Role role) {
    return ((Signal.Analog) signals.of(role)).value();
  }
}
