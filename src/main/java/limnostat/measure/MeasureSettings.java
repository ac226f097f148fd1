package limnostat.measure;

import java.util.Set;

/**
 * Settings of the validation.
 *
 * @param orpOffsetMv added to the raw ORP, mV
 * @param waterFallbackC temperature assumed while the thermometer has failed, °C
 * @param freshWaterS flow time until the water at the probes is the pool's, s
 * @param fitted the roles that the installation has
 * @param orpCalibrated when the ORP probe was calibrated
 * @param phCalibrated when the pH electrode was calibrated
 * @param pumpSign the sign that the pump is off
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

  /** For when nothing is configured about calibration dates and the pump. */
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
