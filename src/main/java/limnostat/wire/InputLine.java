package limnostat.wire;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import limnostat.measure.Role;
import limnostat.measure.Signal;
import limnostat.measure.Signals;
import limnostat.scan.Command;

/**
 * One input line of {@code bench}: a scan's inputs.
 *
 * @param t simulated time, Unix s
 */
public record InputLine(double t, Signals signals, List<Command.Request> commands) {
  /** The end of the year 9999, Unix s. Calendars do not go further. */
  private static final double T_MAX_S = 253_402_300_799.0;

  private static final Signal NULL = new Signal.Missing("the read failed (null)");

  /** A line that is not an input line. The message says what is wrong with it. */
  public static final class Malformed extends Exception {
    private static final long serialVersionUID = 1L;

    public Malformed(String message) {
      super(message);
    }
  }

  /**
   * @param line UTF-8, without its line feed
   */
  public static InputLine read(byte[] line) throws Malformed {
    JsonNode node;
    try {
      node = Json.MAPPER.readTree(line);
    } catch (JsonProcessingException e) {
      throw new Malformed("not valid JSON: " + e.getOriginalMessage());
    } catch (IOException e) {
      throw new Malformed("not readable: " + e.getMessage());
    }
    if (node == null || !node.isObject()) {
      throw new Malformed("an input line is a JSON object with t and in");
    }
    if (!node.path("t").isNumber()) {
      throw new Malformed("t: simulated time in Unix seconds is wanted, a number");
    }
    double t = node.path("t").doubleValue();
    if (!(t >= 0 && t <= T_MAX_S)) {
      throw new Malformed("t: " + t + " is no time from 1970 to 9999, in Unix seconds");
    }
    if (!node.path("in").isObject()) {
      throw new Malformed("in: the field signals are wanted, an object by role");
    }
    return new InputLine(t, signals(node.path("in")), commands(node.path("cmd")));
  }

  private static Signals signals(JsonNode in) throws Malformed {
    Map<Role, Signal> signals = new EnumMap<>(Role.class);
    for (Map.Entry<String, JsonNode> field : in.properties()) {
      Role role =
          Role.ofKey(field.getKey())
              .orElseThrow(() -> new Malformed("in." + field.getKey() + ": no such role"));
      signals.put(role, signal(role, field.getValue()));
    }
    return Signals.of(signals);
  }

  private static Signal signal(Role role, JsonNode value) throws Malformed {
    if (value.isNull()) {
      return NULL;
    }
    if (value.isBoolean() && role.kind() != Role.Kind.ANALOG) {
      return new Signal.Contact(value.booleanValue());
    }
    // A number too large for a double is read as infinity.
    if (value.isNumber()
        && Double.isFinite(value.doubleValue())
        && role.kind() != Role.Kind.CONTACT) {
      return new Signal.Analog(value.doubleValue());
    }
    throw new Malformed(
        "in."
            + role.key()
            + ": "
            + switch (role.kind()) {
              case ANALOG -> "a number";
              case CONTACT -> "true or false";
              case EITHER -> "a number, or true or false,";
            }
            + " is wanted, or null for a failed read");
  }

  private static List<Command.Request> commands(JsonNode cmd) throws Malformed {
    if (cmd.isMissingNode() || cmd.isNull()) {
      return List.of();
    }
    if (!cmd.isArray()) {
      throw new Malformed("cmd: an array of command documents is wanted");
    }
    List<Command.Request> commands = new ArrayList<>();
    for (JsonNode command : cmd) {
      commands.add(CommandReader.read(command, "bench"));
    }
    return commands;
  }

  /** The answer to a line that is not an input line, with its line feed. */
  public static byte[] errorLine(String message, long line) {
    return Json.document(
        json -> {
          json.writeStartObject();
          json.writeStringField("error", message);
          json.writeNumberField("line", line);
          json.writeEndObject();
          json.writeRaw('\n');
        });
  }
}
