package limnostat.measure;

/**
 * The fault that a probe has failed by, for people to read. It is kept as it was when the probe
 * failed, so that the message does not change.
 *
 * @param stands whether there is a fault; if not, the rest means nothing
 * @param test the test that was failed
 * @param value the sample that failed it, in the unit of the quantity; 0 with {@link
 *     Plausibility#PRESENT}
 * @param before the last value that was accepted
 */
public record Fault(boolean stands, Plausibility test, double value, double before) {
  static final Fault NONE = new Fault(false, Plausibility.PRESENT, 0, 0);
}
