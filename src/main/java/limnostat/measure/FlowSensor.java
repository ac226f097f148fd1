package limnostat.measure;

/** What tells that water moves past the probes and the point of dosing. */
public sealed interface FlowSensor {
  /** A switch, closed with flow. */
  record Switch() implements FlowSensor {}

  /**
   * A meter.
   *
   * @param minimumLMin least flow that counts as flow, L/min
   * @param maximumLMin most that can be flow, L/min; more is a fault of the meter
   */
  record Meter(double minimumLMin, double maximumLMin) implements FlowSensor {}
}
