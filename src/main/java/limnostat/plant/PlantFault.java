package limnostat.plant;

import limnostat.actuate.Output;
import limnostat.measure.Role;

/** A temporary fault. A fault of a device that is not fitted does nothing. */
public sealed interface PlantFault {

  Span span();

  /**
   * From one time to another, Unix s. At the end everything is as before. A span that ends before
   * it starts is refused with an {@link IllegalArgumentException}.
   */
  record Span(double startUnixS, double endUnixS) {
    public Span {
      if (!(endUnixS >= startUnixS)) {
        throw new IllegalArgumentException(
            "a fault from " + startUnixS + " to " + endUnixS + " ends before it starts");
      }
    }

    boolean covers(double unixTimeS) {
      return startUnixS <= unixTimeS && unixTimeS < endUnixS;
    }
  }

  /** The water does not flow although the pump runs: air in the pump, a closed valve. */
  record FlowLost(Span span) implements PlantFault {}

  /** The read of a signal fails. */
  record Unplugged(Role role, Span span) implements PlantFault {}

  /**
   * The wire of an analogue signal is broken and the input drifts to its rail; a contact reads
   * open.
   *
   * @param rail value to which the input drifts, in the unit of the role
   * @param driftS time constant, s
   */
  record OpenWire(Role role, double rail, double driftS, Span span) implements PlantFault {}

  /** A signal keeps the value that it had. */
  record Frozen(Role role, Span span) implements PlantFault {}

  /**
   * An analogue signal has a constant error.
   *
   * @param step the error that is added, in the unit of the role
   */
  record Offset(Role role, double step, Span span) implements PlantFault {}

  /**
   * The error of an analogue signal grows gradually, at a rate that water could have.
   *
   * @param step the error at the end, in the unit of the role
   * @param overS duration of the rise, s; more than 0
   */
  record Ramp(Role role, double step, double overS, Span span) implements PlantFault {}

  /**
   * An analogue signal is multiplied by a factor, as by scale or a short between a cell's plates.
   */
  record Scaled(Role role, double factor, Span span) implements PlantFault {}

  /**
   * An analogue signal keeps the value that it had, apart from hum: a dead electrode behind a
   * working front end.
   *
   * @param hum amplitude, in the unit of the role
   */
  record Deaf(Role role, double hum, Span span) implements PlantFault {}

  /** Commanded on, but nothing is delivered and no current flows. */
  record OutputDead(Output output, Span span) implements PlantFault {}

  /** The relay contacts have welded: full output whatever the command. */
  record RelayStuckOn(Output output, Span span) implements PlantFault {}

  /** The tank of a liquid is empty, and its level switch, if fitted, shows it. */
  record TankEmpty(Output output, Span span) implements PlantFault {}
}
