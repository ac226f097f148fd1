package limnostat.plant;

import limnostat.actuate.Output;
import limnostat.measure.Role;

/** Something that breaks for a while. A fault of what is not fitted does nothing. */
public sealed interface PlantFault {

  Span span();

  /**
   * From one time to another, Unix s; at the end all is as before. One that ends before it starts
   * is refused with an {@link IllegalArgumentException}.
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

  /** Water stands though the pump runs: air in the pump, a closed valve. */
  record FlowLost(Span span) implements PlantFault {}

  /** The read of a signal fails. */
  record Unplugged(Role role, Span span) implements PlantFault {}

  /**
   * The wire of an analogue signal is broken and the input drifts to its rail; a contact reads
   * open.
   *
   * @param rail value that the input drifts to, in the unit of the role
   * @param driftS time constant, s
   */
  record OpenWire(Role role, double rail, double driftS, Span span) implements PlantFault {}

  /** A signal keeps the value that it had. */
  record Frozen(Role role, Span span) implements PlantFault {}

  /**
   * An analogue signal is off.
   *
   * @param step what is added, in the unit of the role
   */
  record Offset(Role role, double step, Span span) implements PlantFault {}

  /**
   * An analogue signal goes off little by little, as fast as water could.
   *
   * @param step what is added in the end, in the unit of the role
   * @param overS how long it takes, s; more than 0
   */
  record Ramp(Role role, double step, double overS, Span span) implements PlantFault {}

  /**
   * An analogue signal is a multiple of what it should be: scale or a short between a cell's
   * plates.
   */
  record Scaled(Role role, double factor, Span span) implements PlantFault {}

  /**
   * An analogue signal keeps the value that it had, but for hum: an electrode that is dead behind a
   * front end that works.
   *
   * @param hum amplitude, in the unit of the role
   */
  record Deaf(Role role, double hum, Span span) implements PlantFault {}

  /** Command on, but nothing comes and no current flows. */
  record OutputDead(Output output, Span span) implements PlantFault {}

  /** The relay has welded: full output whatever the command. */
  record RelayStuckOn(Output output, Span span) implements PlantFault {}

  /** The tank of a liquid has run empty, and its level switch, where fitted, says so. */
  record TankEmpty(Output output, Span span) implements PlantFault {}
}
