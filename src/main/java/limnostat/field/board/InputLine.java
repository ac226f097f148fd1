package limnostat.field.board;

import com.pi4j.context.Context;
import com.pi4j.io.gpio.digital.DigitalInput;
import com.pi4j.io.gpio.digital.DigitalState;
import com.pi4j.io.gpio.digital.PullResistance;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.function.LongSupplier;
import limnostat.config.FieldSettings;
import limnostat.measure.Signal;

/**
 * One input line with its edges. The scan thread reads it; a Pi4J thread reports the edges.
 *
 * <p>Pi4J 2.8.0 starts the thread that waits for edges before it stores the handle that this thread
 * uses. If the thread is faster, it ends silently: the line then reads correctly but never reports
 * an edge. So if a level changes and stays without an edge, the line is opened again.
 */
final class InputLine {
  private final String what;
  private final FieldSettings.LineIn settings;
  private final long debounceUs;
  private final Consumer<DigitalState> onEdge;
  private final Context context;
  private final LongSupplier nowNs;
  private final Retry retry = new Retry();
  private final AtomicLong edges = new AtomicLong();
  private DigitalInput input;
  private volatile String problem;

  private DigitalState lastLevel = DigitalState.UNKNOWN;
  private long lastEdges;
  private boolean edgeDue;

  /**
   * @param debounceUs a level must last this long to be reported as an edge, µs
   * @param onEdge receives the new level, on a Pi4J thread
   */
  InputLine(
      String what,
      FieldSettings.LineIn settings,
      long debounceUs,
      Consumer<DigitalState> onEdge,
      Context context,
      LongSupplier nowNs) {
    this.what = what;
    this.settings = settings;
    this.debounceUs = debounceUs;
    this.onEdge = onEdge;
    this.context = context;
    this.nowNs = nowNs;
  }

  /** Requests the line, unless it is open already or a recent attempt failed. */
  void open() {
    if (input != null || !retry.due(nowNs.getAsLong())) {
      return;
    }
    try {
      DigitalInput opened =
          context.create(
              DigitalInput.newConfigBuilder(context)
                  .id(id())
                  .address(settings.line())
                  .pull(pull())
                  .debounce(debounceUs)
                  .build());
      opened.addListener(
          event -> {
            edges.incrementAndGet();
            onEdge.accept(event.state());
          });
      input = opened;
      problem = null;
      retry.succeeded();
    } catch (RuntimeException e) {
      failed("cannot be opened", e);
    }
  }

  /** Why the line does not work at present. */
  Optional<String> problem() {
    return Optional.ofNullable(problem);
  }

  /**
   * The meaning of the line's level, or a missing signal. Opens the line when an attempt is due.
   */
  Signal read(Function<DigitalState, Signal> meaning) {
    open();
    if (input == null) {
      return new Signal.Missing(problem);
    }
    try {
      DigitalState level = input.state();
      if (level == DigitalState.UNKNOWN) {
        return new Signal.Missing(place() + " has no level");
      }
      if (edgesLost(level)) {
        close();
        open();
      } else {
        problem = null;
      }
      return meaning.apply(level);
    } catch (RuntimeException e) {
      failed("cannot be read", e);
      return new Signal.Missing(problem);
    }
  }

  /** Releases the line and ends its thread. */
  void close() {
    if (input != null) {
      input = null;
      context.shutdown(id());
    }
  }

  private boolean edgesLost(DigitalState level) {
    long count = edges.get();
    boolean quiet = count == lastEdges;
    boolean lost = edgeDue && quiet && level == lastLevel;
    edgeDue = quiet && lastLevel != DigitalState.UNKNOWN && level != lastLevel;
    lastLevel = level;
    lastEdges = count;
    return lost;
  }

  private void failed(String how, RuntimeException e) {
    problem =
        place() + " " + how + ": " + Causes.innermost(e) + "; " + BoardContext.lineMend(context);
    retry.failed(nowNs.getAsLong());
  }

  private PullResistance pull() {
    return switch (settings.pull()) {
      case NONE -> PullResistance.OFF;
      case UP -> PullResistance.PULL_UP;
      case DOWN -> PullResistance.PULL_DOWN;
    };
  }

  private String id() {
    return "limnostat-" + what;
  }

  private String place() {
    return "GPIO input line " + settings.line() + " (" + what + ")";
  }
}
