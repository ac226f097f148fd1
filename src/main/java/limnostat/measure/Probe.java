package limnostat.measure;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * Judges the samples of one probe, in the unit of its quantity.
 *
 * <p>A sample that fails a test is dropped, and the last good value is used for a limited time.
 * After that the probe has failed. Bad time adds up, and good time reduces it at only a quarter of
 * the speed. A signal that is bad more than 20 % of the time therefore counts as failed. A failed
 * probe is good again once all of its bad time has been worked off. The rate test allows any change
 * that could have happened since the last good sample, so that a real step is accepted in the end.
 */
final class Probe {
  /**
   * Shortest base of the rate test, s: noise between two samples close in time is not a rate
   * (engineering judgement).
   */
  private static final double RATE_BASE_S = 10;

  /** Good time that works off one unit of bad time (engineering judgement). */
  static final double RECOVERY = 4;

  private Probe() {}

  /**
   * One converted sample.
   *
   * @param value in the unit of the quantity; empty or not finite: no value
   * @param signal the same without compensation; the freeze test uses it, since temperature
   *     compensation would keep a frozen signal moving
   * @param wiring what the raw signal looks like: an open or a short circuit, else {@link
   *     Plausibility#RANGE}; it only names the fault of a sample that fails anyway
   */
  record Sample(OptionalDouble value, OptionalDouble signal, Plausibility wiring) {
    /** A sample without compensation. */
    Sample(OptionalDouble value, Plausibility wiring) {
      this(value, value, wiring);
    }

    boolean isNumber() {
      return value.isPresent() && Double.isFinite(value.getAsDouble());
    }
  }

  /**
   * What is remembered about a probe.
   *
   * @param accepted last sample that passed
   * @param ageS time since that sample, s; infinite: never
   * @param still the uncompensated signal about which it has been still
   * @param stillS for how long it has been still, s; negative: nothing seen yet
   * @param badS bad time that has not been worked off, s
   * @param fault the probe's fault, until it is good again
   */
  record Memory(
      double accepted, double ageS, double still, double stillS, double badS, Fault fault) {
    static final Memory BLANK = new Memory(0, Double.POSITIVE_INFINITY, 0, -1, 0, Fault.NONE);

    /** The last value no longer counts. Stillness and faults still do. */
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
   * @param poolWater whether the probe is in the pool's own, moving water; only then is its value
   *     valid, and only then does stillness mean a frozen signal
   * @param elapsedS time since the last scan, s
   */
  static Judged judge(
      ProbeSettings settings, Memory memory, Sample sample, boolean poolWater, double elapsedS) {
    if (!poolWater) {
      // Nothing about the standing water is remembered: the first fresh sample may be anything in
      // range. Only stillness and bad time are kept, or a frozen or flapping signal would count as
      // live at each start of the pump.
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

  /**
   * A frozen signal has been bad for as long as it has been still. It gives no value, but its
   * stillness is remembered.
   */
  private static Judged frozen(ProbeSettings settings, Memory passed, Sample sample) {
    Plausibility test =
        sample.wiring == Plausibility.SHORT ? Plausibility.SHORT : Plausibility.FREEZE;
    return failed(passed, settings.staleS(), test, sample, passed.accepted);
  }

  private static Judged failing(
      ProbeSettings settings, Memory aged, Plausibility test, Sample sample, double elapsedS) {
    double badS = aged.badS + elapsedS;
    // ageS also shows whether there is a last good value at all.
    if (!aged.fault.stands() && badS <= settings.staleS() && aged.ageS <= settings.staleS()) {
      return new Judged(
          new Measurement.Value(
              aged.accepted, Status.OUT_OF_SPECIFICATION, aged.ageS, List.of(test)),
          aged.with(badS, Fault.NONE));
    }
    return failed(aged, Math.min(badS, settings.staleS()), test, sample, aged.accepted);
  }

  /** The first fault is the one that is reported: those that follow flicker. */
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
