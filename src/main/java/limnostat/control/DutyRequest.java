package limnostat.control;

/**
 * Demands on the outputs.
 *
 * @param chlorineDuty 0–1
 * @param fallbackDuty upper limit of the chlorine duty while a signal has failed, 0–1
 * @param acidDuty 0–1
 * @param pumpRequest whether circulation is wanted
 */
public record DutyRequest(
    double chlorineDuty, double fallbackDuty, double acidDuty, boolean pumpRequest) {}
