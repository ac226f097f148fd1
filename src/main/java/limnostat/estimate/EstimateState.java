package limnostat.estimate;

/**
 * What the estimator remembers.
 *
 * @param cyanuricAcidMgL stabiliser as last told, mg/L
 * @param testedOffsetMv electrode offset as of the last test of free chlorine, mV: the setpoint
 *     follows tests only, or it would follow the electrode, and the pool with it
 * @param ph last usable pH
 * @param waterC last usable water temperature, °C
 * @param sinceUpdateS time since the electrode last corrected the belief, s
 * @param innovationMv difference between that ORP and what was expected, mV
 * @param innovationSdMv what that difference was expected to scatter by, mV
 */
public record EstimateState(
    Belief belief,
    double cyanuricAcidMgL,
    double testedOffsetMv,
    double ph,
    double waterC,
    double sinceUpdateS,
    double innovationMv,
    double innovationSdMv) {}
