package limnostat.daemon;

import java.util.EnumMap;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicLong;
import limnostat.account.DoseTotals;
import limnostat.alarm.AlarmState;
import limnostat.alarm.Flood;
import limnostat.measure.Role;
import limnostat.measure.Signal;
import limnostat.measure.Signals;
import limnostat.safety.Priority;
import limnostat.scan.Command;
import limnostat.scan.ScanEvent;
import org.tinylog.Logger;

/**
 * Writes events to the log on its own thread, behind a bounded queue. A log that nobody reads must
 * not stop a scan.
 */
public final class EventLog implements AutoCloseable {
  private static final int WAITING_MAX = 256;

  /** One line. */
  public record Line(boolean warning, String text) {}

  /** Where lines go: the process's log, or the demo's table. Called on the log's own thread. */
  public interface Sink {
    void write(Line line);
  }

  private final BlockingQueue<Line> waiting = new ArrayBlockingQueue<>(WAITING_MAX);
  private final AtomicLong dropped = new AtomicLong();
  private final Map<Role, String> missing = new EnumMap<>(Role.class);
  private final Sink sink;
  private final Thread thread;

  public EventLog() {
    this(EventLog::toLog);
  }

  public EventLog(Sink sink) {
    this.sink = sink;
    thread = new Thread(this::drain, "log");
    thread.setDaemon(true);
    thread.start();
  }

  void info(String text) {
    offer(new Line(false, text));
  }

  public void warn(String text) {
    offer(new Line(true, text));
  }

  public void log(ScanEvent event) {
    if (event instanceof ScanEvent.AlarmChanged e) {
      boolean raised = !e.to().acknowledged() && e.to() != AlarmState.RETURNED_UNACKNOWLEDGED;
      boolean weighty = e.alarm().priority().compareTo(Priority.MEDIUM) >= 0;
      offer(
          new Line(
              raised && weighty,
              "alarm "
                  + e.alarm().id()
                  + " ("
                  + e.alarm().priority().key()
                  + ") "
                  + e.to().term()
                  + ": "
                  + e.alarm().title()
                  + (raised ? ". " + e.alarm().advice() : "")
                  + e.detail().map(detail -> " " + detail).orElse("")));
    } else if (event instanceof ScanEvent.AlarmFlood e) {
      warn(
          e.began()
              ? "flood of alarms: more than "
                  + Flood.MOST
                  + " in 10 minutes; low ones are held back until it is over"
              : "the flood of alarms is over");
    } else if (event instanceof ScanEvent.SetpointChanged e) {
      info("set point " + e.name() + " " + e.from() + " to " + e.to() + " by " + e.origin());
    } else if (event instanceof ScanEvent.DayEnded e) {
      DoseTotals.Amounts day = e.totals().day();
      info(
          String.format(
              Locale.ROOT,
              "the day is over: %.1f g of chlorine, %.0f mL of acid%s",
              day.chlorineG(),
              day.acidMl(),
              e.totals().dated() ? "" : "; the clock was not trusted all day"));
    } else if (event instanceof ScanEvent.ModeChanged e) {
      info("mode " + e.from().key() + " to " + e.to().key());
    } else if (event instanceof ScanEvent.ControlLevelChanged e) {
      info("control stands on " + e.to().key() + ", before on " + e.from().key());
    } else if (event instanceof ScanEvent.Accepted e) {
      info(command(e.request()) + " accepted" + e.remark().map(remark -> ": " + remark).orElse(""));
    } else if (event instanceof ScanEvent.Refused e) {
      info(command(e.request()) + " refused: " + e.reason());
    } else if (event instanceof ScanEvent.AnsweredAgain e) {
      info(command(e.request()) + " came again, is answered as before and not applied again");
    } else if (event instanceof ScanEvent.AdditionSuspected e) {
      warn(e.text());
    } else if (event instanceof ScanEvent.Interrupted e) {
      warn("no scan for " + Math.round(e.elapsedS()) + " s; outputs stay off until flow is proven");
    }
    // Trips without an alarm come and go with the pump. They are in the ledger and on MQTT, not
    // here.
  }

  private static String command(Command.Request request) {
    String type = request.type().isEmpty() ? "without a readable type" : request.type();
    return "command " + type + " from " + request.origin();
  }

  /** Logs once why a fitted input is missing, and once when it is back. */
  public void inputs(Signals signals, Iterable<Role> fitted) {
    for (Role role : fitted) {
      if (signals.of(role) instanceof Signal.Missing absent) {
        if (missing.put(role, absent.reason()) == null) {
          warn("input " + role.key() + " is missing: " + absent.reason());
        }
      } else if (missing.remove(role) != null) {
        info("input " + role.key() + " is back");
      }
    }
  }

  private void offer(Line line) {
    if (!waiting.offer(line)) {
      dropped.incrementAndGet();
    }
  }

  private void drain() {
    try {
      while (true) {
        write(waiting.take());
      }
    } catch (InterruptedException e) {
      for (Line line = waiting.poll(); line != null; line = waiting.poll()) {
        write(line);
      }
    }
  }

  private void write(Line line) {
    long lost = dropped.getAndSet(0);
    if (lost > 0) {
      sink.write(new Line(true, lost + " log lines were dropped, as the log did not take them"));
    }
    sink.write(line);
  }

  private static void toLog(Line line) {
    if (line.warning()) {
      Logger.warn(line.text());
    } else {
      Logger.info(line.text());
    }
  }

  /** Writes the lines that are waiting, for at most two seconds. */
  @Override
  public void close() {
    thread.interrupt();
    try {
      thread.join(TimeUnit.SECONDS.toMillis(2));
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}
