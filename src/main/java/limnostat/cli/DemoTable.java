package limnostat.cli;

import java.io.PrintStream;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.stream.Collectors;
import limnostat.actuate.Output;
import limnostat.alarm.AlarmState;
import limnostat.config.Configuration;
import limnostat.plant.Truth;
import limnostat.safety.Cause;
import limnostat.safety.Effect;
import limnostat.scan.ScanEvent;
import limnostat.scan.ScanOutcome;

/**
 * Writes the demo for people: a head, a row each quarter of an hour, the scenes between them, three
 * lines at the end.
 */
final class DemoTable {
  private static final DateTimeFormatter TIME = DateTimeFormatter.ofPattern("HH:mm", Locale.ROOT);

  private final PrintStream out;
  private final ZoneId zone;
  private double lowMgL = Double.POSITIVE_INFINITY;
  private double highMgL;
  private double sumMgL;
  private long scans;
  private long switchings;
  private boolean on;
  private long raised;
  private long returned;
  private double mostInAnHourG;
  private ScanOutcome last;

  DemoTable(PrintStream out, ZoneId zone) {
    this.out = out;
    this.zone = zone;
  }

  void head(Configuration configuration, DemoBroker broker, Demo.Pace pace) {
    out.printf(
        Locale.ROOT,
        "A simulated pool of %.0f m3 with a chlorine output of %.0f g/h, target %.1f mg/L: %d day(s),"
            + " %.0f times as fast as life.%n",
        configuration.scan().estimate().volumeM3(),
        configuration.scan().chlorine().caps().ratePerH(),
        configuration.scan().control().freeChlorineTargetMgL(),
        pace.days(),
        pace.speed());
    out.println("Simulation only: no hardware is touched. Broker: " + broker.note() + ".");
    if (broker.settings().enabled()) {
      String at = "-h " + broker.settings().host() + " -p " + broker.settings().port();
      String topic = broker.settings().baseTopic() + "/" + configuration.siteId();
      out.println("To watch, in another terminal:");
      out.println("  mosquitto_sub " + at + " -v -t '" + topic + "/#'");
      out.println("To send a command:");
      out.println(
          "  mosquitto_pub "
              + at
              + " -q 1 -t "
              + topic
              + "/command -m '{\"type\":\"mode\",\"mode\":\"off\"}'");
    }
    out.println();
    out.println(
        "time    sun water   ORP    pH  free chlorine mg/L  duty output chlorine  held by; alarms");
    out.println("       W/m2    °C    mV        estimate     truth             g in 24 h");
  }

  void row(double unixTimeS, ScanOutcome outcome, Truth truth) {
    out.printf(
        Locale.ROOT,
        "%s  %4.0f  %4.1f %5s %5s  %4.2f ± %4.2f     %4.2f  %4.2f  %-5s     %6.1f  %s%n",
        time(unixTimeS),
        truth.solarWM2(),
        truth.waterC(),
        value(outcome.measured().orpMv().shown(), "%.0f"),
        value(outcome.measured().ph().shown(), "%.2f"),
        outcome.estimate().freeChlorineMgL(),
        outcome.estimate().freeChlorineSdMgL(),
        truth.freeChlorineMgL(),
        outcome.demand().chlorineDuty(),
        output(outcome),
        outcome.state().chlorine().account().lastDay(),
        why(outcome));
  }

  void scene(double unixTimeS, String text) {
    out.println(time(unixTimeS) + "  ---- " + text);
  }

  /** Keeps count for the end. */
  void scan(ScanOutcome outcome, Truth truth) {
    lowMgL = Math.min(lowMgL, truth.freeChlorineMgL());
    highMgL = Math.max(highMgL, truth.freeChlorineMgL());
    sumMgL += truth.freeChlorineMgL();
    scans++;
    boolean now = outcome.outputs().chlorine() > 0;
    switchings += now && !on ? 1 : 0;
    on = now;
    mostInAnHourG = Math.max(mostInAnHourG, outcome.state().chlorine().account().lastHour());
    for (ScanEvent event : outcome.events()) {
      if (event instanceof ScanEvent.AlarmChanged changed) {
        raised += changed.to() == AlarmState.UNACKNOWLEDGED ? 1 : 0;
        returned += changed.to() == AlarmState.RETURNED_UNACKNOWLEDGED ? 1 : 0;
      }
    }
    last = outcome;
  }

  void end(Path ledger, boolean interrupted) {
    out.println();
    if (interrupted) {
      out.println("Stopped: outputs are off.");
    }
    if (last != null) {
      out.printf(
          Locale.ROOT,
          "Water: true free chlorine %.2f to %.2f mg/L, mean %.2f; estimate at the end %.2f ± %.2f.%n",
          lowMgL,
          highMgL,
          sumMgL / scans,
          last.estimate().freeChlorineMgL(),
          last.estimate().freeChlorineSdMgL());
      out.printf(
          Locale.ROOT,
          "Dosed: %.1f g of chlorine in %d runs, at most %.1f g in any hour; %.0f mL of acid.%n",
          last.state().chlorine().account().given(),
          switchings,
          mostInAnHourG,
          last.state().acid().account().given());
      out.printf(
          Locale.ROOT,
          "Alarms: %d raised, %d of them over by themselves; every line is in %s.%n",
          raised,
          returned,
          ledger);
    }
  }

  private String time(double unixTimeS) {
    return TIME.format(Instant.ofEpochSecond((long) unixTimeS).atZone(zone));
  }

  private static String value(OptionalDouble value, String format) {
    return value.isPresent() ? String.format(Locale.ROOT, format, value.getAsDouble()) : "-";
  }

  private static String output(ScanOutcome outcome) {
    return outcome.outputs().chlorine() > 0 ? "CHLOR" : outcome.outputs().acid() > 0 ? "ACID" : "-";
  }

  private static String why(ScanOutcome outcome) {
    String held =
        outcome.permission().active().stream()
            .filter(cause -> cause.on(Output.CHLORINE) != Effect.NONE)
            .map(Cause::id)
            .collect(Collectors.joining(" "));
    String alarms =
        outcome.state().alarms().entrySet().stream()
            .filter(alarm -> alarm.getValue().state() != AlarmState.NORMAL)
            .map(alarm -> alarm.getKey().id() + " " + alarm.getValue().state().term())
            .collect(Collectors.joining(", "));
    return alarms.isEmpty() ? held : held + "; " + alarms;
  }
}
