package limnostat.field.board;

import java.util.OptionalDouble;

/**
 * Flow from a pulse count. A meter that gives few pulses is silent between two of them, so the
 * absence of a pulse does not prove that there is no flow. But it limits the flow: at most one
 * pulse in the time since the last. The reading falls along that limit.
 */
final class PulseRate {
  private static final double S_PER_MIN = 60;

  /** Silence that counts as no flow (engineering judgement). */
  private static final double SILENT_S = 60;

  private final double pulsesPerLitre;
  private boolean started;
  private long lastCount;
  private double lastPulseS;
  private OptionalDouble flowLMin = OptionalDouble.empty();

  PulseRate(double pulsesPerLitre) {
    this.pulsesPerLitre = pulsesPerLitre;
  }

  /**
   * Flow, L/min; empty until there is an interval to measure.
   *
   * @param count pulses since the line was opened
   * @param monotonicS time of the count, s
   */
  OptionalDouble update(long count, double monotonicS) {
    double elapsedS = monotonicS - lastPulseS;
    if (!started) {
      started = true;
      mark(count, monotonicS);
    } else if (elapsedS <= 0) {
      // the same instant again: no new information
    } else if (count > lastCount) {
      flowLMin = OptionalDouble.of(flowLMin(count - lastCount, elapsedS));
      mark(count, monotonicS);
    } else if (elapsedS >= SILENT_S) {
      flowLMin = OptionalDouble.of(0);
    } else {
      double atMostLMin = flowLMin(1, elapsedS);
      flowLMin = OptionalDouble.of(Math.min(flowLMin.orElse(0), atMostLMin));
    }
    return flowLMin;
  }

  /** flow = pulses / (pulses per litre) / time. */
  private double flowLMin(long pulses, double elapsedS) {
    return pulses / pulsesPerLitre / elapsedS * S_PER_MIN;
  }

  private void mark(long count, double monotonicS) {
    lastCount = count;
    lastPulseS = monotonicS;
  }
}
