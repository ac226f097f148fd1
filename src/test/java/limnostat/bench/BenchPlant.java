package limnostat.bench;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.function.BooleanSupplier;
import java.util.stream.StreamSupport;
import limnostat.config.Configuration;
import limnostat.config.ConfigurationException;
import limnostat.rig.ConfigText;
import limnostat.safety.Cause;

/** A plant from outside, which writes lines of the bench protocol and reads the answers. */
final class BenchPlant {
  /** 2026-07-01 10:00 in the shipped file's zone. */
  static final double START_UNIX_S = 1_782_892_800;

  private static final ObjectMapper JSON = new ObjectMapper();

  /** What the field shows; null: the read fails. Noise is added to the probes. */
  final ObjectNode in = JSON.createObjectNode();

  /** Current of the cell while it is on, A. */
  double cellA = 5;

  boolean cellStuck;
  boolean cellDead;

  /** From line to line, s; at most 60. */
  double stepS = 10;

  /** How far ORP swings to either side within three hours, mV. */
  double swingMv;

  JsonNode answer;
  private final BenchLoop loop;
  private final List<String> commands = new ArrayList<>();
  private final Random noise = new Random(1);
  private double t = START_UNIX_S;
  private long lines;

  BenchPlant(ConfigText config, Path folder) throws IOException {
    try {
      loop = new BenchLoop(Configuration.load(config.write(folder)).scan());
    } catch (ConfigurationException e) {
      throw new IllegalArgumentException(e);
    }
    in.put("orp_mv", 650).put("water_c", 25).put("flow", true).put("pump_on", true);
    in.put("tank_low", false).put("acid_tank_low", false).put("cover_closed", false);
    ph(7.4);
  }

  void ph(double ph) {
    in.put("ph_mv", (7 - ph) * 59.16);
  }

  /** A command document, sent with the next line; ' stands for ". */
  void command(String document) {
    commands.add(document.replace('\'', '"'));
  }

  /** So many seconds later than planned. */
  void gap(double seconds) {
    t += seconds;
  }

  void scan(double seconds) throws IOException {
    for (double s = 0; s < seconds; s += stepS) {
      scan();
    }
  }

  /** Scans until it holds. */
  boolean scanUntil(BooleanSupplier holds, double withinS) throws IOException {
    for (double s = 0; s < withinS; s += stepS) {
      scan();
      if (holds.getAsBoolean()) {
        return true;
      }
    }
    return false;
  }

  private void scan() throws IOException {
    t += stepS;
    ObjectNode line = JSON.createObjectNode().put("t", t);
    ObjectNode seen = in.deepCopy();
    double swing = swingMv * StrictMath.sin(t * StrictMath.PI / 5400);
    noisy(seen, "orp_mv", swing);
    noisy(seen, "ph_mv", 0);
    noisy(seen, "water_c", 0);
    boolean current = cellStuck || (output("chlorine") > 0 && !cellDead);
    seen.put("cell_a", current ? cellA : 0);
    line.set("in", seen);
    if (!commands.isEmpty()) {
      ArrayNode cmd = line.putArray("cmd");
      for (String command : commands) {
        cmd.add(JSON.readTree(command));
      }
      commands.clear();
    }
    line(JSON.writeValueAsBytes(line));
  }

  /** Any line, as it is. */
  void line(byte[] text) throws IOException {
    answer = JSON.readTree(loop.answer(text, ++lines));
  }

  private void noisy(ObjectNode seen, String role, double plus) {
    if (seen.path(role).isNumber()) {
      seen.put(role, seen.path(role).doubleValue() + plus + 0.1 * noise.nextDouble());
    }
  }

  // What it answers.

  double output(String output) {
    return answer == null ? 0 : answer.at("/out/" + output).asDouble();
  }

  /** The outputs that a cause holds now; empty where it is not among those that hold. */
  List<String> heldBy(Cause cause) {
    return StreamSupport.stream(answer.at("/state/inhibits").spliterator(), false)
        .filter(inhibit -> inhibit.at("/cause").asText().equals(cause.id()))
        .flatMap(inhibit -> StreamSupport.stream(inhibit.at("/outputs").spliterator(), false))
        .map(JsonNode::asText)
        .toList();
  }

  boolean limits(Cause cause) {
    return StreamSupport.stream(answer.at("/state/limits").spliterator(), false)
        .anyMatch(limit -> limit.asText().equals(cause.id()));
  }

  /** Term of the alarm's state; normal where it is not listed. */
  String alarm(Cause cause) {
    return StreamSupport.stream(answer.at("/alarms").spliterator(), false)
        .filter(alarm -> alarm.at("/id").asText().equals(cause.id()))
        .map(alarm -> alarm.at("/state").asText())
        .findFirst()
        .orElse("normal");
  }

  /** For people: the answer without what is the same in each. */
  String told() {
    ObjectNode told = answer.deepCopy();
    told.path("alarms").forEach(alarm -> ((ObjectNode) alarm).remove(List.of("title", "advice")));
    return told.toString();
  }

  /** Whether a command was granted on the last line. */
  boolean accepted(String type) {
    return StreamSupport.stream(answer.at("/events").spliterator(), false)
        .anyMatch(
            event ->
                event.at("/event").asText().equals("command")
                    && event.at("/type").asText().equals(type)
                    && event.at("/result").asText().equals("accepted"));
  }
}
