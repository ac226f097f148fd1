package limnostat.measure;

/** The sensor that proves flow past the probes and the dosing point. */
public sealed interface FlowSensor {
  /** A switch, closed with flow. */
  record Switch() implements FlowSensor {}

  /**
   * A meter.
   *
   * @param minimumLMin lowest reading that counts as flow, L/min
   * @param maximumLMin highest flow possible, L/min; a higher reading is a fault of the meter
   */
  record Meter(double minimumLMin, double maximumLMin) implements FlowSensor {}
}
