package limnostat.field.board;

import com.pi4j.context.Context;
import com.pi4j.io.gpio.digital.DigitalOutput;
import com.pi4j.io.gpio.digital.DigitalState;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.function.LongSupplier;
import limnostat.config.FieldSettings;
import limnostat.field.FieldException;

/**
 * One relay output. It is off from the moment the line is requested, and off again when it is
 * released. The relay's polarity decides which level is off. The scan thread drives it; any thread
 * may switch it off. Each change is one step under the lock.
 */
final class RelayLine {
  /**
   * A level that something else has changed is corrected within this time (engineering judgement).
   */
  private static final long REASSERT_NS = TimeUnit.SECONDS.toNanos(60);

  private final String what;
  private final FieldSettings.LineOut settings;
  private final Context context;
  private final LongSupplier nowNs;
  private final Retry retry = new Retry();
  private DigitalOutput output;
  private DigitalState driven = DigitalState.UNKNOWN;
  private long drivenNs;
  private boolean closed;
  private String problem;

  RelayLine(String what, FieldSettings.LineOut settings, Context context, LongSupplier nowNs) {
    this.what = what;
    this.settings = settings;
    this.context = context;
    this.nowNs = nowNs;
  }

  /** Requests the line with the relay off, unless it is open already or a recent attempt failed. */
  synchronized void open() {
    if (output != null || closed || !retry.due(nowNs.getAsLong())) {
      return;
    }
    try {
      output =
          context.create(
              DigitalOutput.newConfigBuilder(context)
                  .id("limnostat-" + what)
                  .address(settings.line())
                  .initial(level(false))
                  .shutdown(level(false))
                  .build());
      problem = null;
      retry.succeeded();
    } catch (RuntimeException e) {
      problem = place() + " cannot be opened: " + reason(e);
      retry.failed(nowNs.getAsLong());
    }
  }

  /** Why the line does not work at present. */
  synchronized Optional<String> problem() {
    return Optional.ofNullable(problem);
  }

  /**
   * Drives the relay. Writes the line only to change its level or to re-assert it.
   *
   * @throws FieldException the line is not open, refused the level, or does not show it
   */
  synchronized void drive(boolean on) throws FieldException {
    open();
    if (closed) {
      throw new FieldException(place() + " is closed: the field has been shut down");
    }
    if (output == null) {
      throw new FieldException(problem);
    }
    DigitalState wanted = level(on);
    long now = nowNs.getAsLong();
    if (wanted == driven && now - drivenNs < REASSERT_NS) {
      verify(wanted);
      return;
    }
    set(wanted);
    drivenNs = now;
  }

  /** Switches off, whatever was driven last. */
  synchronized void off() throws FieldException {
    if (output != null && !closed) {
      set(level(false));
    }
  }

  /** Switches off for good. */
  synchronized void close() throws FieldException {
    try {
      off();
    } finally {
      closed = true;
    }
  }

  private void set(DigitalState wanted) throws FieldException {
    driven = DigitalState.UNKNOWN;
    try {
      output.state(wanted);
    } catch (RuntimeException e) {
      problem = place() + " cannot be driven " + wanted + ": " + reason(e);
      throw new FieldException(problem, e);
    }
    verify(wanted);
    driven = wanted;
    problem = null;
  }

  /**
   * Pi4J's gpiod output answers from its own memory. So this detects a lost command or a second
   * user of the object, but not a broken wire. Only the cell's current can show that an output does
   * not follow.
   */
  private void verify(DigitalState wanted) throws FieldException {
    DigitalState shown = output.state();
    if (shown != wanted) {
      driven = DigitalState.UNKNOWN;
      problem =
          place()
              + " shows "
              + shown
              + " after it was driven "
              + wanted
              + "; check that nothing else uses the line";
      throw new FieldException(problem);
    }
  }

  private DigitalState level(boolean on) {
    return DigitalState.getState(on != settings.activeLow());
  }

  private String place() {
    return "GPIO output line " + settings.line() + " (" + what + ")";
  }

  private String reason(RuntimeException e) {
    return Causes.innermost(e) + "; " + BoardContext.lineMend(context);
  }
}
