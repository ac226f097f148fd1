package limnostat.field.board;

import java.util.OptionalDouble;

/**
 * Flow from a count of pulses. A meter that gives few pulses falls silent between two of them, so
 * no pulse is no proof of no flow; but it does bound the flow: at most one pulse in the time
 * without one. The reading falls along that bound.
 */
final class PulseRate {
  private static final double S_PER_MIN = 60;

  /** Silence that counts as no flow at all (engineering judgement). */
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
   * Flow, L/min; empty until there is an interval to count over.
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
      // the same instant again: nothing new to tell
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

  /** flow = pulses / (pulses a litre) / time. */
  private double flowLMin(long pulses, double elapsedS) {
    return pulses / pulsesPerLitre / elapsedS * S_PER_MIN;
  }

  private void mark(long count, double monotonicS) {
    lastCount = count;
    lastPulseS = monotonicS;
  }
}
