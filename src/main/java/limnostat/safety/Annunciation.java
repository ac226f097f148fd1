package limnostat.safety;

/**
 * How a cause becomes an alarm, by the attributes of ISA-18.2: priority, delays and deadband.
 *
 * @param onDelayS a condition must last this long to be an alarm, s
 * @param offDelayS the condition must be gone this long before the alarm returns, s: a condition
 *     that flickers is one alarm
 * @param deadband how far the value must come back over the limit before the condition is gone, in
 *     the unit of the value; 0 for a contact, or for a test with its own hysteresis
 * @param unit display unit of the deadband, with its leading space
 */
public record Annunciation(
    Priority priority, double onDelayS, double offDelayS, double deadband, String unit) {
  /**
   * The usual on delay and off delay, s (engineering judgement: a short dropout is bridged; EEMUA
   * 191 has 60 s for levels and temperatures, from memory).
   */
  public static final double USUAL_S = 60;

  /** Critical alarms are raised at once; other conditions may be transient. */
  static Annunciation of(Priority priority) {
    return new Annunciation(priority, priority == Priority.CRITICAL ? 0 : USUAL_S, USUAL_S, 0, "");
  }

  /** For a cause whose detection already takes long enough. */
  Annunciation atOnce() {
    return new Annunciation(priority, 0, offDelayS, deadband, unit);
  }

  Annunciation goneAfter(double seconds) {
    return new Annunciation(priority, onDelayS, seconds, deadband, unit);
  }

  Annunciation deadband(double value, String itsUnit) {
    return new Annunciation(priority, onDelayS, offDelayS, value, itsUnit);
  }
}
