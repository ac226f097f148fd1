package limnostat.measure;

/** The named tests that every sample of a probe passes or fails. */
public enum Plausibility {
  /** There is a sample, and it is a number. */
  PRESENT("no signal"),
  /** It is no more than a sound electrode can give. */
  OPEN("open circuit"),
  /** It is not the nothing that a short circuit gives. */
  SHORT("short circuit"),
  /** It lies in the believable range. */
  RANGE("out of range"),
  /** It has not moved faster than the water can. */
  RATE("too fast"),
  /** It moves at all: live electrodes are never still. */
  FREEZE("frozen"),
  /** It has moved as water can, see {@link Envelope}. */
  MODEL("contradicts the model of the water"),
  /** It has passed for long enough since the probe failed. */
  STEADY("not steady yet"),
  /** The probe's calibration is one that a probe can have. */
  CALIBRATION("calibration not believable"),
  /** The water at the probe is the pool's. */
  FRESH_WATER("standing water");

  private final String failure;

  Plausibility(String failure) {
    this.failure = failure;
  }

  /** What a sample that fails the test is called. */
  public String failure() {
    return failure;
  }
}
