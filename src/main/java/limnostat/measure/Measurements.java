package limnostat.measure;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * One scan's validated inputs.
 *
 * @param orpMv calibrated ORP, mV
 * @param ph calibrated and temperature-compensated pH
 * @param waterC water temperature, °C
 * @param flow whether water moves; a missing flow signal counts as no flow
 * @param flowMissing why there is no flow signal, if it is missing
 * @param flowS for how long it has moved without interruption, s
 * @param poolWater whether the probes have been in the pool's own water for long enough
 * @param pumpOn contact of the circulation pump; empty: not fitted
 * @param cellA cell current, A; NaN: not read; empty: not fitted
 * @param tankLow chlorine tank low; a fitted switch that cannot be read counts as low
 * @param acidTankLow the same for the acid tank
 * @param outside what is known about the sun and the cover
 * @param waterStandInC water temperature assumed while the thermometer has failed, °C
 * @param upkeep what the probes need from a person
 */
public record Measurements(
    Measurement orpMv,
    Measurement ph,
    Measurement waterC,
    boolean flow,
    Optional<String> flowMissing,
    double flowS,
    boolean poolWater,
    Optional<Boolean> pumpOn,
    OptionalDouble cellA,
    boolean tankLow,
    boolean acidTankLow,
    Outside outside,
    double waterStandInC,
    Upkeep upkeep) {

  /**
   * Standard deviation of the error of the assumed water temperature, °C (engineering judgement).
   */
  private static final double STAND_IN_SD_C = 5;

  /** With probes that need no upkeep, and 25 °C as the assumed water temperature. */
  public Measurements(
      Measurement orpMv,
      Measurement ph,
      Measurement waterC,
      boolean flow,
      Optional<String> flowMissing,
      double flowS,
      boolean poolWater,
      Optional<Boolean> pumpOn,
      OptionalDouble cellA,
      boolean tankLow,
      boolean acidTankLow,
      Outside outside) {
    this(
        orpMv,
        ph,
        waterC,
        flow,
        flowMissing,
        flowS,
        poolWater,
        pumpOn,
        cellA,
        tankLow,
        acidTankLow,
        outside,
        25,
        Upkeep.NONE);
  }

  /** The same while a person is working on the probes: shown, but not used (NE 107). */
  Measurements inFunctionCheck() {
    return new Measurements(
        inFunctionCheck(orpMv),
        inFunctionCheck(ph),
        inFunctionCheck(waterC),
        flow,
        flowMissing,
        flowS,
        false,
        pumpOn,
        cellA,
        tankLow,
        acidTankLow,
        outside,
        waterStandInC,
        upkeep);
  }

  private static Measurement inFunctionCheck(Measurement measurement) {
    return new Measurement.None(Status.FUNCTION_CHECK, List.of(), measurement.shown());
  }

  private boolean standIn() {
    return waterC.status() == Status.FAILURE || upkeep.waterDisagrees();
  }

  /**
   * The water temperature to use, °C. Normally it is the measured one. While the water at the
   * thermometer stands still, it is the last one. While the thermometer has failed, or contradicts
   * the model, it is the assumed one.
   */
  public double waterOr(double lastC) {
    return standIn() ? waterStandInC : waterC.orElse(lastC);
  }

  /** Its standard deviation, °C. A working thermometer counts as exact. */
  public double waterSdC() {
    return standIn() ? STAND_IN_SD_C : 0;
  }
}
