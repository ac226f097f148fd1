package limnostat.field;

import limnostat.actuate.Outputs;
import limnostat.measure.Signals;

/**
 * The inputs and outputs of one installation, by role. Owned by the scan thread, except {@link
 * #off} and the edge callback.
 */
public interface Field extends AutoCloseable {

  /**
   * Reads every fitted input. A failed read gives a {@link limnostat.measure.Signal.Missing} with
   * its reason. It never throws, and it never takes longer than a fraction of a scan.
   *
   * @param monotonicS monotonic time, s
   * @param unixTimeS wall clock, Unix s
   */
  Signals read(double monotonicS, double unixTimeS);

  /**
   * Drives the outputs. On an exception the caller treats them as not driven and calls {@link
   * #off}.
   *
   * @throws FieldException what failed, where, and the remedy
   */
  void write(Outputs outputs) throws FieldException;

  /**
   * Toggles the heartbeat output, if one is wired. It drives a separate relay that cuts the power
   * of the outputs when the changes stop. Call only after a complete scan.
   *
   * @throws FieldException what failed, where, and the remedy; the level stays as it is
   */
  default void beat() throws FieldException {}

  /** Switches everything off, from any thread, as far as possible; never throws. */
  void off();

  /** Registers a callback that a driver thread runs at once when the flow input changes. */
  void onFlowEdge(Runnable callback);

  /** Switches the outputs off and releases the lines. */
  @Override
  void close();
}
