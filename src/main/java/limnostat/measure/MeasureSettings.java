package limnostat.measure;

import java.util.Set;

/**
 * Everything the validation needs.
 *
 * @param orpOffsetMv added to the ORP as wired, mV
 * @param waterFallbackC temperature assumed while the thermometer has failed, °C
 * @param freshWaterS flow time until the water at the probes is the pool's, s
 * @param fitted the roles that the installation has
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
    Set<Role> fitted) {}
