package limnostat.measure;

import java.util.Set;

/**
 * Everything the validation needs.
 *
 * @param orpOffsetMv added to the ORP as wired, mV
 * @param waterFallbackC temperature assumed while the thermometer has failed, °C
 * @param freshWaterS flow time until the water at the probes is the pool's, s
 * @param fitted the roles that the installation has
 * @param orpCalibrated when the ORP probe was calibrated
 * @param phCalibrated when the pH electrode was calibrated
 * @param pumpSign what tells that the pump rests
 */
public record MeasureSettings(
    ProbeSettings orp,
    double orpOffsetMv,
    ProbeSettings ph,
    PhCalibration phCalibration,
    ProbeSettings water,
    double waterFallbackC,
    FlowSensor flow,
    double freshWaterS,
    Set<Role> fitted,
    CalibrationAge orpCalibrated,
    CalibrationAge phCalibrated,
    PumpSign pumpSign) {

  /** Where nothing is configured of calibration and pump. */
  public MeasureSettings(
      ProbeSettings orp,
      double orpOffsetMv,
      ProbeSettings ph,
      PhCalibration phCalibration,
      ProbeSettings water,
      double waterFallbackC,
      FlowSensor flow,
      double freshWaterS,
      Set<Role> fitted) {
    this(
        orp,
        orpOffsetMv,
        ph,
        phCalibration,
        water,
        waterFallbackC,
        flow,
        freshWaterS,
        fitted,
        CalibrationAge.NOT_TOLD,
        CalibrationAge.NOT_TOLD,
        PumpSign.NONE);
  }
}
