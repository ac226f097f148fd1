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
    Outside outside) {

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
        outside);
  }

  private static Measurement inFunctionCheck(Measurement measurement) {
    return new Measurement.None(Status.FUNCTION_CHECK, List.of(), measurement.shown());
  }
}
