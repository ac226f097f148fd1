package limnostat.field;

import limnostat.actuate.Outputs;
import limnostat.measure.Signals;

/**
 * The inputs and outputs of one installation, by role. Owned by the scan thread, except {@link
 * #off} and the edge callback.
 */
public interface Field extends AutoCloseable {

  /**
   * Reads every fitted input. A failed read is a {@link limnostat.measure.Signal.Missing} with its
   * reason, never an exception, and never takes longer than a fraction of a scan.
   *
   * @param monotonicS monotonic time, s
   * @param unixTimeS wall clock, Unix s
   */
  Signals read(double monotonicS, double unixTimeS);

  /**
   * Drives the outputs. On an exception the caller takes them as not driven and asks for {@link
   * #off}.
   *
   * @throws FieldException what failed, where, and the mend
   */
  void write(Outputs outputs) throws FieldException;

  /**
   * The heartbeat output, where one is wired, changes its level: for a relay of its own that cuts
   * the power of the outputs when the changes cease. To be called after a whole scan only.
   *
   * @throws FieldException what failed, where, and the mend; the level stays as it is
   */
  default void beat() throws FieldException {}

  /** Everything off, from any thread, as well as it can be done; never throws. */
  void off();

  /** Has the callback run, on a thread of the driver's, at once when the flow input changes. */
  void onFlowEdge(Runnable callback);

  /** Outputs off, lines released. */
  @Override
  void close();
}
