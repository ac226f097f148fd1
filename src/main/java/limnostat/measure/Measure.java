package limnostat.measure;

import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import limnostat.water.Nernst;

/** First stage of the scan: raw signals become values with a status. */
public final class Measure {
  /** Temperature assumed for a glass electrode without temperature compensation, °C. */
  static final double UNCOMPENSATED_C = 25;

  /**
   * Tolerance for two places in layered water, noise, and the sensor's own scatter, °C (judgement).
   */
  private static final Envelope.Limits WATER = new Envelope.Limits(3, 12 * 3600, 12 * 3600);

  /**
   * Tolerance for a plume that has not mixed, noise, and an electrode's drift, pH (judgement). If
   * the electrode has moved up, its reading would feed acid, so no lapse of time restores trust in
   * it.
   */
  private static final Envelope.Limits PH =
      new Envelope.Limits(0.3, Double.POSITIVE_INFINITY, 24 * 3600);

  private Measure() {}

  /** The values, and what is remembered for the next scan. */
  public record Result(Measurements measurements, MeasureState state) {
    /** The same while a person is working on the probes. */
    public Result inFunctionCheck() {
      return new Result(measurements.inFunctionCheck(), state);
    }
  }

  /** One scan with an unknown time of day. */
  public static Result step(
      MeasureSettings settings, MeasureState state, Signals signals, double elapsedS) {
    return step(settings, state, signals, OptionalDouble.empty(), elapsedS);
  }

  /** One scan without a model of the water. */
  public static Result step(
      MeasureSettings settings,
      MeasureState state,
      Signals signals,
      OptionalDouble unixTimeS,
      double elapsedS) {
    return step(settings, state, signals, unixTimeS, Moves.UNKNOWN, elapsedS);
  }

  /**
   * One scan.
   *
   * @param unixTimeS wall clock, for the age of calibrations; empty while it is not trusted
   * @param moves how far the water can have moved since the last scan
   * @param elapsedS time since the last scan, s
   */
  public static Result step(
      MeasureSettings settings,
      MeasureState state,
      Signals signals,
      OptionalDouble unixTimeS,
      Moves moves,
      double elapsedS) {
    Flow flow = flow(settings.flow(), signals.of(Role.FLOW));
    double flowS = flow.moving ? Math.max(0, state.flowS() < 0 ? 0 : state.flowS() + elapsedS) : -1;
    boolean poolWater = flow.moving && flowS >= settings.freshWaterS();

    Probe.Judged water =
        Probe.judge(
            settings.water(),
            state.water(),
            // The reading of an open or a shorted thermometer depends on its type.
            new Probe.Sample(analog(signals, Role.WATER_C), Plausibility.RANGE),
            poolWater,
            elapsedS);
    boolean settled = poolWater && flowS >= Envelope.SETTLED_S;
    Envelope waterModel =
        state
            .waterModel()
            .step(
                WATER,
                water.measurement(),
                moves.warmerC() + (flow.moving ? moves.heatedC() : 0),
                moves.colderC(),
                settled,
                elapsedS);
    double waterC =
        waterModel.doubted()
            ? settings.waterFallbackC()
            : water.measurement().orElse(settings.waterFallbackC());
    OptionalDouble phMv = analog(signals, Role.PH_MV);
    OptionalDouble orpMv = analog(signals, Role.ORP_MV);
    Probe.Judged ph =
        Probe.judge(
            settings.ph(),
            state.ph(),
            new Probe.Sample(
                ph(settings.phCalibration(), phMv, waterC),
                ph(settings.phCalibration(), phMv, UNCOMPENSATED_C),
                Wiring.of(phMv, Wiring.GLASS_MOST_MV)),
            poolWater,
            elapsedS);
    Probe.Judged orp =
        Probe.judge(
            settings.orp(),
            state.orp(),
            new Probe.Sample(
                orp(settings.orpOffsetMv(), orpMv), Wiring.of(orpMv, Wiring.PLATINUM_MOST_MV)),
            poolWater,
            elapsedS);

    PhCheck phCheck = state.phCheck().step(settings.phCalibration(), ph.measurement(), elapsedS);
    Envelope phModel =
        state
            .phModel()
            .step(
                PH,
                ph.measurement(),
                moves.phUp() + (flow.moving ? moves.phAired() : 0),
                moves.phDown(),
                settled,
                elapsedS);
    Upkeep upkeep = upkeep(settings, phCheck, unixTimeS, waterModel.doubted(), phModel.doubted());

    return new Result(
        new Measurements(
            orp.measurement().atBest(upkeep.orpAtBest()),
            ph.measurement().atBest(upkeep.phAtBest()),
            waterModel.doubted() ? water.measurement().contradicted() : water.measurement(),
            flow.moving,
            flow.missing,
            flowS,
            poolWater,
            settings.fitted().contains(Role.PUMP_ON)
                ? Optional.of(closed(signals, Role.PUMP_ON, false))
                : Optional.empty(),
            settings.fitted().contains(Role.CELL_A)
                ? OptionalDouble.of(analog(signals, Role.CELL_A).orElse(Double.NaN))
                : OptionalDouble.empty(),
            settings.fitted().contains(Role.TANK_LOW) && closed(signals, Role.TANK_LOW, true),
            settings.fitted().contains(Role.ACID_TANK_LOW)
                && closed(signals, Role.ACID_TANK_LOW, true),
            Outside.of(settings, signals),
            settings.waterFallbackC(),
            upkeep),
        new MeasureState(
            orp.memory(), ph.memory(), water.memory(), flowS, phCheck, waterModel, phModel));
  }

  private static Upkeep upkeep(
      MeasureSettings settings,
      PhCheck phCheck,
      OptionalDouble unixTimeS,
      boolean waterDisagrees,
      boolean phUnexplained) {
    return new Upkeep(
        settings.orpCalibrated().due(unixTimeS),
        settings.phCalibrated().due(unixTimeS),
        ProbeHealth.orp(settings.orpOffsetMv()),
        ProbeHealth.ph(settings.phCalibration()),
        phCheck.disagrees(),
        waterDisagrees,
        phUnexplained);
  }

  /** pH = 7 − (E − E0)/(s S(t)), isopotential point at pH 7. */
  static OptionalDouble ph(PhCalibration calibration, OptionalDouble mv, double waterC) {
    if (mv.isEmpty()) {
      return mv;
    }
    double slopeMv = calibration.slopeFraction() * Nernst.slopeMvPerPh(waterC);
    return OptionalDouble.of(7 - (mv.getAsDouble() - calibration.offsetMv()) / slopeMv);
  }

  private static OptionalDouble orp(double offsetMv, OptionalDouble mv) {
    return mv.isEmpty() ? mv : OptionalDouble.of(mv.getAsDouble() + offsetMv);
  }

  private static OptionalDouble analog(Signals signals, Role role) {
    return signals.of(role) instanceof Signal.Analog analog
        ? OptionalDouble.of(analog.value())
        : OptionalDouble.empty();
  }

  /** The state of the contact, or the worse of its two states if it cannot be read. */
  private static boolean closed(Signals signals, Role role, boolean worse) {
    return signals.of(role) instanceof Signal.Contact contact ? contact.closed() : worse;
  }

  private record Flow(boolean moving, Optional<String> missing) {}

  private static Flow flow(FlowSensor sensor, Signal signal) {
    if (sensor instanceof FlowSensor.Meter meter) {
      return flowMeter(meter, signal);
    }
    return flowSwitch(signal);
  }

  private static Flow flowSwitch(Signal signal) {
    if (signal instanceof Signal.Contact contact) {
      return new Flow(contact.closed(), Optional.empty());
    }
    return new Flow(
        false, Optional.of(reason(signal, "a meter's value where a switch is configured")));
  }

  private static Flow flowMeter(FlowSensor.Meter meter, Signal signal) {
    if (signal instanceof Signal.Analog analog) {
      if (!Double.isFinite(analog.value())) {
        return new Flow(false, Optional.of("not a finite number"));
      }
      if (analog.value() > meter.maximumLMin()) {
        return new Flow(
            false,
            Optional.of(
                String.format(
                    Locale.ROOT,
                    "the meter reads more than the %.0f L/min of flow.maximum",
                    meter.maximumLMin())));
      }
      return new Flow(analog.value() >= meter.minimumLMin(), Optional.empty());
    }
    return new Flow(
        false, Optional.of(reason(signal, "a switch's state where a meter is configured")));
  }

  private static String reason(Signal signal, String wrongKind) {
    return signal instanceof Signal.Missing missing ? missing.reason() : wrongKind;
  }
}
