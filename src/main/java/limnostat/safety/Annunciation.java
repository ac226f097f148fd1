package limnostat.safety;

/**
 * How a cause becomes an alarm, by the attributes of ISA-18.2: priority, delays and deadband.
 *
 * @param onDelayS a condition must last this long to be an alarm, s
 * @param offDelayS and be gone this long to have returned, s: a condition that flickers is one
 *     alarm
 * @param deadband how far the value must come back over the limit before the condition is gone, in
 *     the unit of the value; 0: a contact, or a judgement that has a hysteresis of its own
 * @param unit unit of the deadband for people, with its blank
 */
public record Annunciation(
    Priority priority, double onDelayS, double offDelayS, double deadband, String unit) {
  /**
   * The usual delay both ways, s (engineering judgement: a short dropout is held over; EEMUA 191
   * has 60 s for levels and temperatures, from memory).
   */
  public static final double USUAL_S = 60;

  /** What is critical is raised at once; the rest may be a passing thing. */
  static Annunciation of(Priority priority) {
    return new Annunciation(priority, priority == Priority.CRITICAL ? 0 : USUAL_S, USUAL_S, 0, "");
  }

  /** For a cause that has been long enough in coming already. */
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
