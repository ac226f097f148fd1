package limnostat.measure;

/**
 * How the values of one probe are judged; the unit is that of the measured value (mV, pH, °C).
 *
 * @param rangeMin lowest believable value
 * @param rangeMax highest believable value
 * @param rateMaxPerS largest believable change a second
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
