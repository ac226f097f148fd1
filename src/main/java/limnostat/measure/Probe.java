package limnostat.measure;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * Judges the samples of one probe, in the unit of its quantity.
 *
 * <p>A sample that fails a test is dropped and the last good value held for a stated time; then the
 * probe has failed. Bad time adds up: good time takes it back at a quarter of the speed only, so a
 * signal that is bad for more than a fifth of the time fails like one that is gone. A probe that
 * has failed is good again once all of its bad time has been taken back. The rate test allows what
 * could have happened since the last good sample, so that a real step is believed in the end.
 */
final class Probe {
  /**
   * Shortest time that the rate test looks over, s: noise between two samples close in time is not
   * a rate (engineering judgement).
   */
  private static final double RATE_BASE_S = 10;

  /** Good time that takes back one of bad time (engineering judgement). */
  static final double RECOVERY = 4;

  private Probe() {}

  /**
   * One converted sample.
   *
   * @param value in the unit of the quantity; empty or not finite: there is none
   * @param signal the same without compensation: whether the signal is still is told by this, or a
   *     frozen one would follow the temperature
   * @param wiring what the signal as wired looks like: an open or a short circuit, else {@link
   *     Plausibility#RANGE}; it only names a sample that fails all the same
   */
  record Sample(OptionalDouble value, OptionalDouble signal, Plausibility wiring) {
    /** One that is not compensated. */
    Sample(OptionalDouble value, Plausibility wiring) {
      this(value, value, wiring);
    }

    boolean isNumber() {
      return value.isPresent() && Double.isFinite(value.getAsDouble());
    }
  }

  /**
   * What is remembered of a probe.
   *
   * @param accepted last sample that passed
   * @param ageS time since then, s; infinite: never
   * @param still the signal, not compensated, about which it has been still
   * @param stillS for how long, s; negative: nothing seen yet
   * @param badS bad time that has not been taken back, s
   * @param fault what the probe has failed by, until it is good again
   */
  record Memory(
      double accepted, double ageS, double still, double stillS, double badS, Fault fault) {
    static final Memory BLANK = new Memory(0, Double.POSITIVE_INFINITY, 0, -1, 0, Fault.NONE);

    /** The last value does not count any more; stillness and faults do. */
    Memory forgetting() {
      return new Memory(0, Double.POSITIVE_INFINITY, still, stillS, badS, fault);
    }

    Optional<Fault> standing() {
      return fault.stands() ? Optional.of(fault) : Optional.empty();
    }

    private Memory aged(double elapsedS) {
      return new Memory(accepted, ageS + elapsedS, still, stillS, badS, fault);
    }

    private Memory with(double nextBadS, Fault next) {
      return new Memory(accepted, ageS, still, stillS, nextBadS, next);
    }
  }

  record Judged(Measurement measurement, Memory memory) {}

  /**
   * @param poolWater whether the probe stands in the pool's own, moving water; only then is a value
   *     one, and only then does stillness tell of a frozen signal
   * @param elapsedS time since the last scan, s
   */
  static Judged judge(
      ProbeSettings settings, Memory memory, Sample sample, boolean poolWater, double elapsedS) {
    if (!poolWater) {
      // Nothing of the standing water is remembered: the first fresh sample may be anything in
      // range. Only stillness and bad time are, or a frozen or flapping signal would be a live one
      // at each start of the pump.
      return new Judged(
          none(Status.FUNCTION_CHECK, Plausibility.FRESH_WATER, sample), memory.forgetting());
    }
    Memory aged = memory.aged(elapsedS);
    if (!sample.isNumber()) {
      return failing(settings, aged, Plausibility.PRESENT, sample, elapsedS);
    }
    double value = sample.value.getAsDouble();
    if (value < settings.rangeMin() || value > settings.rangeMax()) {
      return failing(settings, aged, sample.wiring, sample, elapsedS);
    }
    if (Math.abs(value - aged.accepted)
        > settings.rateMaxPerS() * Math.max(aged.ageS, RATE_BASE_S)) {
      return failing(settings, aged, Plausibility.RATE, sample, elapsedS);
    }
    double signal = sample.signal.orElse(value);
    boolean still = memory.stillS >= 0 && Math.abs(signal - aged.still) <= settings.freezeBand();
    Memory passed =
        still
            ? new Memory(value, 0, aged.still, aged.stillS + elapsedS, aged.badS, aged.fault)
            : new Memory(value, 0, signal, 0, aged.badS, aged.fault);
    return settings.freezeS() > 0 && passed.stillS >= settings.freezeS()
        ? frozen(settings, passed, sample)
        : passing(passed, sample, elapsedS);
  }

  private static Judged passing(Memory passed, Sample sample, double elapsedS) {
    double badS = Math.max(0, passed.badS - elapsedS / RECOVERY);
    if (passed.fault.stands() && badS > 0) {
      return new Judged(
          none(Status.FAILURE, Plausibility.STEADY, sample), passed.with(badS, passed.fault));
    }
    return new Judged(
        new Measurement.Value(passed.accepted, Status.GOOD, 0, List.of()),
        passed.with(badS, Fault.NONE));
  }

  /** A frozen signal is as old as its stillness; it is no value, and it is remembered as still. */
  private static Judged frozen(ProbeSettings settings, Memory passed, Sample sample) {
    Plausibility test =
        sample.wiring == Plausibility.SHORT ? Plausibility.SHORT : Plausibility.FREEZE;
    return failed(passed, settings.staleS(), test, sample, passed.accepted);
  }

  private static Judged failing(
      ProbeSettings settings, Memory aged, Plausibility test, Sample sample, double elapsedS) {
    double badS = aged.badS + elapsedS;
    // ageS says besides whether there is a value to hold at all.
    if (!aged.fault.stands() && badS <= settings.staleS() && aged.ageS <= settings.staleS()) {
      return new Judged(
          new Measurement.Value(
              aged.accepted, Status.OUT_OF_SPECIFICATION, aged.ageS, List.of(test)),
          aged.with(badS, Fault.NONE));
    }
    return failed(aged, Math.min(badS, settings.staleS()), test, sample, aged.accepted);
  }

  /** The first fault is the one that people are told of: what follows it flickers. */
  private static Judged failed(
      Memory memory, double badS, Plausibility test, Sample sample, double before) {
    Fault fault =
        memory.fault.stands()
            ? memory.fault
            : new Fault(true, test, sample.isNumber() ? sample.value.getAsDouble() : 0, before);
    return new Judged(none(Status.FAILURE, test, sample), memory.with(badS, fault));
  }

  private static Measurement none(Status status, Plausibility failed, Sample sample) {
    return new Measurement.None(
        status, List.of(failed), sample.isNumber() ? sample.value : OptionalDouble.empty());
  }
}
