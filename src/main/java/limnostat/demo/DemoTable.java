package limnostat.demo;

import java.io.PrintStream;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.stream.Collectors;
import limnostat.actuate.Output;
import limnostat.alarm.AlarmState;
import limnostat.alarm.Alarms;
import limnostat.config.Configuration;
import limnostat.plant.Truth;
import limnostat.safety.Cause;
import limnostat.safety.Effect;
import limnostat.scan.ScanEvent;
import limnostat.scan.ScanOutcome;

/**
 * Writes the demo for people: a header, a row every quarter of an hour, the events between them,
 * and three lines at the end. It writes only whole lines, since the log's thread writes too.
 */
final class DemoTable {
  private static final DateTimeFormatter TIME = DateTimeFormatter.ofPattern("HH:mm", Locale.ROOT);

  private final PrintStream out;
  private final ZoneId zone;
  private double lowMgL = Double.POSITIVE_INFINITY;
  private double highMgL;
  private double sumMgL;
  private long scans;
  private long runs;
  private boolean on;
  private double onSinceRowS;
  private double sinceRowS;
  private long raised;
  private long returned;
  private double mostInAnHourG;
  private ScanOutcome last;

  DemoTable(PrintStream out, ZoneId zone) {
    this.out = out;
    this.zone = zone;
  }

  void head(Configuration configuration, DemoBroker broker, Demo.Pace pace) {
    line(
        "A simulated pool of %.0f m3 with a chlorine output of %.0f g/h and a target of %.1f mg/L; %d"
            + " day(s), %.0f times as fast as life.",
        configuration.scan().estimate().volumeM3(),
        configuration.scan().chlorine().caps().ratePerH(),
        configuration.scan().control().freeChlorineTargetMgL(),
        pace.days(),
        pace.speed());
    line("Simulation only: no hardware is touched. Broker: %s.", broker.note());
    if (broker.settings().enabled()) {
      String at = "-h " + broker.settings().host() + " -p " + broker.settings().port();
      String topic = broker.settings().baseTopic() + "/" + configuration.siteId();
      line("To watch, in another terminal:");
      line("  mosquitto_sub %s -v -t '%s/#'", at, topic);
      line("To send a command:");
      line(
          "  mosquitto_pub %s -q 1 -t %s/command -m '{\"type\":\"mode\",\"mode\":\"off\"}'",
          at, topic);
    }
    line("");
    line(
        "local   sun water   ORP    pH  free chlorine, mg/L  duty  chlorine, acid    inhibits, limits;");
    line("time   W/m2    °C    mV        estimate      truth       on %%   g*   mL*     alarms");
  }

  void row(double unixTimeS, ScanOutcome outcome, Truth truth) {
    line(
        "%s  %4.0f  %4.1f %5s %5s  %4.2f ± %4.2f    %5.2f  %4.2f  %4.0f %5.1f %5.0f     %s",
        time(unixTimeS),
        truth.solarWM2(),
        truth.waterC(),
        value(outcome.measured().orpMv().shown(), "%.0f"),
        value(outcome.measured().ph().shown(), "%.2f"),
        outcome.estimate().freeChlorineMgL(),
        outcome.estimate().freeChlorineSdMgL(),
        truth.freeChlorineMgL(),
        outcome.demand().chlorineDuty(),
        sinceRowS > 0 ? 100 * onSinceRowS / sinceRowS : 0,
        outcome.state().chlorine().account().lastDay(),
        outcome.state().acid().account().lastDay(),
        why(outcome));
    onSinceRowS = 0;
    sinceRowS = 0;
  }

  void scene(double unixTimeS, String text) {
    line("%s  ---- %s", time(unixTimeS), text);
  }

  /** A line of the log, between the rows. */
  void log(String text) {
    line("       log: %s", text);
  }

  /**
   * Adds a scan to the figures for the rows and for the end.
   *
   * @param stepS for how long the outcome's outputs apply, s
   */
  void scan(ScanOutcome outcome, Truth truth, double stepS) {
    lowMgL = Math.min(lowMgL, truth.freeChlorineMgL());
    highMgL = Math.max(highMgL, truth.freeChlorineMgL());
    sumMgL += truth.freeChlorineMgL();
    scans++;
    boolean now = outcome.outputs().chlorine() > 0;
    runs += now && !on ? 1 : 0;
    on = now;
    onSinceRowS += outcome.outputs().chlorine() * stepS;
    sinceRowS += stepS;
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
    line("* in the last 24 hours");
    line("");
    if (interrupted) {
      line("Stopped: outputs are off.");
    }
    if (last == null) {
      return;
    }
    line(
        "Water: true free chlorine %.2f to %.2f mg/L, mean %.2f; estimate at the end %.2f ± %.2f.",
        lowMgL,
        highMgL,
        sumMgL / scans,
        last.estimate().freeChlorineMgL(),
        last.estimate().freeChlorineSdMgL());
    line(
        "Dosed: %.1f g of chlorine in %d runs, at most %.1f g in any hour; %.0f mL of acid.",
        last.state().chlorine().account().given(),
        runs,
        mostInAnHourG,
        last.state().acid().account().given());
    line(
        "Alarms: %d raised, %d of them went by themselves. Readings, doses and events are in %s.",
        raised, returned, ledger);
  }

  private void line(String format, Object... values) {
    out.println(String.format(Locale.ROOT, format, values));
  }

  private String time(double unixTimeS) {
    return TIME.format(Instant.ofEpochSecond((long) unixTimeS).atZone(zone));
  }

  private static String value(OptionalDouble value, String format) {
    return value.isPresent() ? String.format(Locale.ROOT, format, value.getAsDouble()) : "-";
  }

  private static String why(ScanOutcome outcome) {
    List<String> parts = new ArrayList<>();
    parts.add(
        outcome.permission().active().stream()
            .filter(cause -> cause.on(Output.CHLORINE) != Effect.NONE)
            .map(Cause::id)
            .collect(Collectors.joining(" ")));
    outcome.state().alarms().entrySet().stream()
        .filter(alarm -> active(alarm.getValue()))
        .map(alarm -> "alarm " + alarm.getKey().id() + " " + alarm.getValue().state().term())
        .forEach(parts::add);
    long over =
        outcome.state().alarms().values().stream()
            .filter(alarm -> !alarm.state().acknowledged() && !active(alarm))
            .count();
    if (over > 0) {
      parts.add(over + " to acknowledge");
    }
    parts.removeIf(String::isEmpty);
    return String.join("; ", parts);
  }

  private static boolean active(Alarms.Entry alarm) {
    return alarm.state() == AlarmState.UNACKNOWLEDGED || alarm.state() == AlarmState.ACKNOWLEDGED;
  }
}
