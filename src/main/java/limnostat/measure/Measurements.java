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
 * @param flow whether water moves; a missing flow signal is no flow
 * @param flowMissing why there is no flow signal, where there is none
 * @param flowS for how long it has moved without a break, s
 * @param poolWater whether the probes have stood in the pool's own water for long enough
 * @param pumpOn contact of the circulation pump; empty: not fitted
 * @param cellA cell current, A; not a number: not read; empty: not fitted
 * @param tankLow chlorine tank low; a fitted switch that cannot be read counts as low
 * @param acidTankLow acid tank low; likewise
 * @param outside what is known of the sun and the cover
 * @param waterStandInC the water temperature that is assumed while the thermometer has failed, °C
 * @param upkeep what the probes need of a person
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
   * What a thermometer's stand-in may be off by, standard deviation, °C (engineering judgement).
   */
  private static final double STAND_IN_SD_C = 5;

  /** With probes that need nothing, and 25 °C to stand in. */
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

  /** The same while a person has the probes in hand: shown, but no value to go by (NE 107). */
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
   * The water temperature to work with, °C: as measured; while water stands at the thermometer the
   * last; while it has failed, or contradicts the model, the stand-in.
   */
  public double waterOr(double lastC) {
    return standIn() ? waterStandInC : waterC.orElse(lastC);
  }

  /** Standard deviation of that, °C; a working thermometer counts as exact. */
  public double waterSdC() {
    return standIn() ? STAND_IN_SD_C : 0;
  }
}
