package limnostat.field.board;

import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.TimeUnit;
import java.util.function.BiConsumer;
import java.util.function.LongSupplier;
import java.util.function.Supplier;
import limnostat.measure.Role;
import limnostat.measure.Signal;
import org.tinylog.Logger;

/**
 * The slow inputs of one bus, read in turn on a separate thread. A caller gets the newest reading
 * at once. If the bus hangs, the readings become too old.
 */
final class Sampler {

  /** One slow input; its read may block. */
  record Input(Role role, Supplier<Signal> read) {}

  /**
   * @param periodMs pause between two rounds, ms
   * @param limitMs age from which a reading no longer counts, ms
   */
  record Pace(long periodMs, long limitMs) {}

  private record Reading(Signal signal, long atNs) {}

  private final String bus;
  private final List<Input> inputs;
  private final Pace pace;
  private final LongSupplier nowNs;
  private final long startNs;
  private final Map<Role, Reading> newest = new ConcurrentHashMap<>();
  private final Thread thread;

  /**
   * @param bus name of the bus in messages
   */
  Sampler(String bus, List<Input> inputs, Pace pace, LongSupplier nowNs) {
    this.bus = bus;
    this.inputs = List.copyOf(inputs);
    this.pace = pace;
    this.nowNs = nowNs;
    this.startNs = nowNs.getAsLong();
    this.thread = new Thread(this::run, "field " + bus);
    thread.setDaemon(true);
  }

  void start() {
    thread.start();
  }

  /** The newest signal of each input; never waits. */
  void forEach(BiConsumer<Role, Signal> taker) {
    inputs.forEach(input -> taker.accept(input.role(), signal(input.role())));
  }

  /** Ends the thread. A read that still hangs after this time is abandoned, ms. */
  void stop(long waitMs) {
    thread.interrupt();
    try {
      thread.join(waitMs);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private Signal signal(Role role) {
    Reading reading = newest.get(role);
    long sinceNs = nowNs.getAsLong() - (reading == null ? startNs : reading.atNs());
    if (sinceNs > TimeUnit.MILLISECONDS.toNanos(pace.limitMs())) {
      return new Signal.Missing(
          "no reading from the "
              + bus
              + " for "
              + TimeUnit.NANOSECONDS.toSeconds(sinceNs)
              + " s: the bus or a device on it hangs; check the wiring, then power-cycle the board");
    }
    return reading == null
        ? new Signal.Missing("the first reading from the " + bus + " is under way")
        : reading.signal();
  }

  private void run() {
    try {
      while (!Thread.currentThread().isInterrupted()) {
        inputs.forEach(this::sample);
        Thread.sleep(pace.periodMs());
      }
    } catch (InterruptedException e) {
      Logger.debug("The readings from the {} end", bus);
    }
  }

  private void sample(Input input) {
    Signal signal;
    try {
      signal = input.read().get();
    } catch (RuntimeException e) {
      Logger.error(e, "Reading {} from the {} failed", input.role().key(), bus);
      signal = new Signal.Missing("reading from the " + bus + " failed: " + Causes.innermost(e));
    }
    newest.put(input.role(), new Reading(signal, nowNs.getAsLong()));
  }
}
