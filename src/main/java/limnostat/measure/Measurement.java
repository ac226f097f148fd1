package limnostat.measure;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;

/** A probe's value with its status, or the reason why there is none. */
public sealed interface Measurement {
  Status status();

  /** The tests that the newest sample failed, for people and for the state document. */
  List<Plausibility> failed();

  /**
   * A value that may be used.
   *
   * @param value in the unit of the quantity
   * @param ageS time since it was measured, s; 0 on a good scan, more while the last good value
   *     covers for a short dropout
   */
  record Value(double value, Status status, double ageS, List<Plausibility> failed)
      implements Measurement {}

  /**
   * No value that may be used.
   *
   * @param sample the sample, if there is one: to be shown to people, never to be used for control
   */
  record None(Status status, List<Plausibility> failed, OptionalDouble sample)
      implements Measurement {}

  /**
   * The same with a status no better than this. If the probe itself has failed, there is no value.
   */
  default Measurement atBest(Status best) {
    if (!(this instanceof Value v)) {
      return this;
    }
    return best == Status.FAILURE
        ? new None(best, List.of(Plausibility.CALIBRATION), OptionalDouble.of(v.value()))
        : new Value(v.value(), v.status().orWorse(best), v.ageS(), v.failed());
  }

  /** The same for a probe that contradicts the model: to be shown, and checked against limits. */
  default Measurement contradicted() {
    if (!(this instanceof Value v)) {
      return this;
    }
    List<Plausibility> all = new ArrayList<>(v.failed());
    all.add(Plausibility.MODEL);
    return new Value(
        v.value(), v.status().orWorse(Status.OUT_OF_SPECIFICATION), v.ageS(), List.copyOf(all));
  }

  /** Whether this scan brought a sample that passed every test. */
  default boolean fresh() {
    return this instanceof Value v && v.ageS() == 0 && !v.failed().contains(Plausibility.MODEL);
  }

  default boolean usable() {
    return this instanceof Value;
  }

  /** The value to show to people, usable or not. */
  default OptionalDouble shown() {
    return this instanceof Value v ? OptionalDouble.of(v.value()) : ((None) this).sample();
  }

  /** The value, or the given substitute. */
  default double orElse(double fallback) {
    return this instanceof Value v ? v.value() : fallback;
  }
}
