package limnostat.measure;

import java.util.List;
import java.util.OptionalDouble;

/**
 * Judges the samples of one probe, in the unit of its quantity.
 *
 * <p>A sample that fails a test is dropped and the last good value held for a stated time; then the
 * probe has failed. The rate test allows what could have happened since the last good sample, so
 * that a real step is believed in the end.
 */
final class Probe {
  /**
   * Shortest time that the rate test looks over, s: noise between two samples close in time is not
   * a rate (engineering judgement).
   */
  private static final double RATE_BASE_S = 10;

  private Probe() {}

  /**
   * What is remembered of a probe.
   *
   * @param accepted last sample that passed
   * @param ageS time since then, s; infinite: never
   * @param still value about which the signal has been still
   * @param stillS for how long, s; negative: nothing seen yet
   */
  record Memory(double accepted, double ageS, double still, double stillS) {
    static final Memory BLANK = new Memory(0, Double.POSITIVE_INFINITY, 0, -1);
  }

  record Judged(Measurement measurement, Memory memory) {}

  /**
   * @param sample the converted sample; empty: none
   * @param poolWater whether the probe stands in the pool's own, moving water; only then is a value
   *     one, and only then does stillness tell of a frozen signal
   * @param elapsedS time since the last scan, s
   */
  static Judged judge(
      ProbeSettings settings,
      Memory memory,
      OptionalDouble sample,
      boolean poolWater,
      double elapsedS) {
    Memory aged = new Memory(memory.accepted, memory.ageS + elapsedS, memory.still, memory.stillS);
    if (!poolWater) {
      // Nothing of the standing water is remembered: the first fresh sample may be anything in
      // range. Only stillness
      // is, or a frozen signal would be a live one at each start of the pump.
      return new Judged(
          none(Status.FUNCTION_CHECK, Plausibility.FRESH_WATER, sample),
          new Memory(0, Double.POSITIVE_INFINITY, memory.still, memory.stillS));
    }
    if (sample.isEmpty() || !Double.isFinite(sample.getAsDouble())) {
      return held(settings, aged, Plausibility.PRESENT, OptionalDouble.empty());
    }
    double value = sample.getAsDouble();
    if (value < settings.rangeMin() || value > settings.rangeMax()) {
      return held(settings, aged, Plausibility.RANGE, sample);
    }
    if (Math.abs(value - aged.accepted)
        > settings.rateMaxPerS() * Math.max(aged.ageS, RATE_BASE_S)) {
      return held(settings, aged, Plausibility.RATE, sample);
    }
    boolean still = memory.stillS >= 0 && Math.abs(value - aged.still) <= settings.freezeBand();
    Memory passed =
        still
            ? new Memory(value, 0, aged.still, aged.stillS + elapsedS)
            : new Memory(value, 0, value, 0);
    if (settings.freezeS() > 0 && passed.stillS >= settings.freezeS()) {
      // A frozen signal is as old as its stillness; it is no value, and it is remembered as still.
      return new Judged(none(Status.FAILURE, Plausibility.FREEZE, sample), passed);
    }
    return new Judged(new Measurement.Value(value, Status.GOOD, 0, List.of()), passed);
  }

  private static Judged held(
      ProbeSettings settings, Memory aged, Plausibility failed, OptionalDouble sample) {
    Measurement measurement =
        aged.ageS <= settings.staleS() && aged.stillS < freezeLimitS(settings)
            ? new Measurement.Value(
                aged.accepted, Status.OUT_OF_SPECIFICATION, aged.ageS, List.of(failed))
            : none(Status.FAILURE, failed, sample);
    return new Judged(measurement, aged);
  }

  private static Measurement none(Status status, Plausibility failed, OptionalDouble sample) {
    boolean number = sample.isPresent() && Double.isFinite(sample.getAsDouble());
    return new Measurement.None(status, List.of(failed), number ? sample : OptionalDouble.empty());
  }

  private static double freezeLimitS(ProbeSettings settings) {
    return settings.freezeS() > 0 ? settings.freezeS() : Double.POSITIVE_INFINITY;
  }
}
