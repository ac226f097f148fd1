package limnostat.measure;

/**
 * Criteria for the values of one probe, in the unit of the measured value (mV, pH, °C).
 *
 * @param rangeMin lowest plausible value
 * @param rangeMax highest plausible value
 * @param rateMaxPerS largest plausible change per second
 * @param freezeBand a signal that stays within this band ...
 * @param freezeS ... for this long (s) is frozen; 0: not tested
 * @param staleS without an accepted value for this long (s) the probe has failed
 */
public record ProbeSettings(
    double rangeMin,
    double rangeMax,
    double rateMaxPerS,
    double freezeBand,
    double freezeS,
    double staleS) {}
