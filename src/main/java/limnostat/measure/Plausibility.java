package limnostat.measure;

/** The named tests that every sample of a probe passes or fails. */
public enum Plausibility {
  /** There is a sample, and it is a number. */
  PRESENT("no signal"),
  /** It is no more than a good electrode can give. */
  OPEN("open circuit"),
  /** It is not the near-zero signal of a short circuit. */
  SHORT("short circuit"),
  /** It is within the plausible range. */
  RANGE("out of range"),
  /** It has not moved faster than the water can. */
  RATE("too fast"),
  /** It moves at all: live electrodes are never still. */
  FREEZE("frozen"),
  /** It has moved as water can, see {@link Envelope}. */
  MODEL("contradicts the model of the water"),
  /** It has passed for long enough since the probe failed. */
  STEADY("not steady yet"),
  /** The probe's calibration is possible for a working probe. */
  CALIBRATION("calibration not believable"),
  /** The water at the probe is the pool's. */
  FRESH_WATER("standing water");

  private final String failure;

  Plausibility(String failure) {
    this.failure = failure;
  }

  /** Name of the failure of this test. */
  public String failure() {
    return failure;
  }
}
