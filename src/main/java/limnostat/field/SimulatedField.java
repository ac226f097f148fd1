package limnostat.field;

import limnostat.actuate.Outputs;
import limnostat.measure.Signals;
import limnostat.plant.PlantFault;
import limnostat.plant.Pool;

/**
 * A field on a simulated pool. Between reads the pool advances by monotonic time, so a jump of the
 * wall clock neither speeds it up nor stops it. Written outputs take effect from the last read.
 */
public final class SimulatedField implements Field {
  private final Pool pool;
  private volatile Outputs outputs = Outputs.OFF;
  private volatile Runnable flowEdge = () -> {};
  private volatile long beats;
  private double lastReadMonotonicS = Double.NaN;
  private boolean flowed;

  /**
   * @param pool from now on advanced only by this field
   */
  public SimulatedField(Pool pool) {
    this.pool = pool;
    this.flowed = pool.flows();
  }

  /** If flow changed, the flow-edge callback runs on the caller's thread before this returns. */
  @Override
  public Signals read(double monotonicS, double unixTimeS) {
    Signals signals;
    boolean edge;
    synchronized (pool) {
      double elapsedS = Double.isNaN(lastReadMonotonicS) ? 0 : monotonicS - lastReadMonotonicS;
      lastReadMonotonicS = monotonicS;
      pool.advance(pool.unixTimeS() + elapsedS, outputs);
      signals = pool.signals();
      edge = pool.flows() != flowed;
      flowed = pool.flows();
    }
    if (edge) {
      flowEdge.run();
    }
    return signals;
  }

  @Override
  public void write(Outputs next) {
    outputs = next;
  }

  @Override
  @SuppressWarnings("NonAtomicVolatileUpdate") // one writer, the scan thread
  public void beat() {
    beats++;
  }

  /** How often the heartbeat has toggled. */
  public long beats() {
    return beats;
  }

  @Override
  public void off() {
    outputs = Outputs.OFF;
  }

  @Override
  public void onFlowEdge(Runnable callback) {
    flowEdge = callback;
  }

  /**
   * Makes a fault, from any thread. If it stops the flow at the pool's present time, the flow-edge
   * callback runs at once on the caller's thread, and the next read shows it.
   */
  public void inject(PlantFault fault) {
    boolean edge;
    synchronized (pool) {
      pool.inject(fault);
      edge =
          flowed
              && fault instanceof PlantFault.FlowLost
              && fault.span().startUnixS() <= pool.unixTimeS()
              && pool.unixTimeS() < fault.span().endUnixS();
    }
    if (edge) {
      flowEdge.run();
    }
  }

  /** The pool's own time, Unix s. It starts at the pool's start time. */
  public double poolUnixTimeS() {
    synchronized (pool) {
      return pool.unixTimeS();
    }
  }

  @Override
  public void close() {
    off();
  }
}
