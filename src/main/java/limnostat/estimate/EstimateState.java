package limnostat.estimate;

/**
 * What the estimator remembers.
 *
 * @param cyanuricAcidMgL stabiliser as last told, mg/L
 * @param ph last usable pH
 * @param waterC last usable water temperature, °C
 * @param sinceUpdateS time since the electrode last corrected the belief, s
 * @param innovationMv difference between that ORP and what was expected, mV
 * @param innovationSdMv what that difference was expected to scatter by, mV
 */
public record EstimateState(
    Belief belief,
    double cyanuricAcidMgL,
    double ph,
    double waterC,
    double sinceUpdateS,
    double innovationMv,
    double innovationSdMv) {}
