package limnostat.config;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import limnostat.config.FieldSettings.Board;
import limnostat.config.FieldSettings.LineOut;
import limnostat.config.FieldSettings.Simulated;
import limnostat.measure.PumpSign;
import limnostat.measure.Role;
import limnostat.safety.HardBounds;

/**
 * The effective configuration, for a person or a program: the options in force, the inputs and
 * outputs, and the limits next to the program's own bounds. It never contains the password.
 */
public record ConfigurationReport(
    String file, List<EffectiveOption> options, List<Connection> connections, List<Limit> limits) {

  /**
   * One input or output.
   *
   * @param role key of the input's role, or the name of the output
   * @param direction {@code in} or {@code out}
   * @param device what serves it
   * @param where bus and address, line or id
   * @param polarity level and pull of a line, scaling of a converter
   */
  public record Connection(
      String role, String direction, String device, String where, String polarity) {}

  /**
   * One limit that the installer sets.
   *
   * @param key dotted key
   * @param value with unit
   * @param hardBound bound of the program itself, with unit; empty if it has none
   */
  public record Limit(String key, String value, String hardBound) {}

  public static ConfigurationReport of(ConfigurationFile file) {
    return new ConfigurationReport(
        file.path().toString(), file.options(), connections(file.configuration()), limits(file));
  }

  private static List<Connection> connections(Configuration configuration) {
    FieldSettings field = configuration.field();
    if (field instanceof Board board) {
      return board(board);
    } else if (field instanceof Simulated simulated) {
      return simulated(configuration, simulated);
    }
    throw new IllegalStateException("unknown field " + field);
  }

  private static List<Connection> simulated(Configuration configuration, Simulated simulated) {
    String where = "seed " + simulated.seed();
    List<Connection> list = new ArrayList<>();
    configuration.scan().measure().fitted().stream()
        .sorted()
        .forEach(role -> list.add(new Connection(role.key(), "in", "simulated", where, "")));
    list.add(new Connection("chlorine", "out", "simulated", where, ""));
    if (configuration.scan().acid().fitted()) {
      list.add(new Connection("acid", "out", "simulated", where, ""));
    }
    list.add(new Connection("pump", "out", "simulated", where, ""));
    return List.copyOf(list);
  }

  private static List<Connection> board(Board board) {
    List<Connection> list = new ArrayList<>();
    for (Role role : Role.values()) {
      if (board.analog().containsKey(role)) {
        FieldSettings.AdcInput adc = board.analog().get(role);
        list.add(
            new Connection(
                role.key(),
                "in",
                "converter",
                String.format(
                    Locale.ROOT,
                    "I2C bus %d address 0x%02x channel %d",
                    board.i2cBus(),
                    adc.address(),
                    adc.channel()),
                String.format(
                    Locale.ROOT,
                    "zero %s mV, gain %s, full scale %d mV",
                    Written.number(adc.zeroMv()),
                    Written.number(adc.gain()),
                    adc.fullScaleMv())));
      } else if (board.contacts().containsKey(role)) {
        FieldSettings.LineIn contact = board.contacts().get(role);
        list.add(
            new Connection(
                role.key(),
                "in",
                "contact",
                "line " + contact.line(),
                active(contact.activeLow())
                    + ", pull "
                    + contact.pull().name().toLowerCase(Locale.ROOT)));
      } else if (role == Role.WATER_C && board.thermometer().isPresent()) {
        list.add(new Connection(role.key(), "in", "1-wire", board.thermometer().get().id(), ""));
      } else if (role == Role.FLOW && board.pulses().isPresent()) {
        FieldSettings.PulseIn pulses = board.pulses().get();
        list.add(
            new Connection(
                role.key(),
                "in",
                "pulses",
                "line " + pulses.line(),
                Written.number(pulses.pulsesPerLitre()) + " a litre"));
      }
    }
    board.relays().keySet().stream()
        .sorted()
        .forEach(output -> list.add(relay(output.key(), board.relays().get(output))));
    board.pumpRelay().ifPresent(line -> list.add(relay("pump", line)));
    board
        .heartbeatLine()
        .ifPresent(
            line ->
                list.add(
                    new Connection(
                        "heartbeat", "out", "line", "line " + line, "changes each scan")));
    return List.copyOf(list);
  }

  private static Connection relay(String role, LineOut line) {
    return new Connection(role, "out", "relay", "line " + line.line(), active(line.activeLow()));
  }

  private static String active(boolean low) {
    return low ? "active low" : "active high";
  }

  private static List<Limit> limits(ConfigurationFile file) {
    double volumeM3 = file.configuration().scan().estimate().volumeM3();
    return file.options().stream()
        .filter(option -> option.table().equals("limits") || option.table().equals("target"))
        .filter(option -> option.origin() != EffectiveOption.Origin.ABSENT)
        .map(option -> new Limit(option.path(), option.value(), hardBound(option, volumeM3)))
        .toList();
  }

  /** The bounds on doses scale with the volume. */
  private static String hardBound(EffectiveOption option, double volumeM3) {
    return switch (option.key()) {
      case "chlorine_hour" -> most(HardBounds.CHLORINE_HOUR_MG_L * volumeM3, "g");
      case "chlorine_day" -> most(HardBounds.CHLORINE_DAY_MG_L * volumeM3, "g");
      case "acid_day" -> most(HardBounds.ACID_DAY_ML_M3 * volumeM3, "mL");
      default -> option.hardBound();
    };
  }

  private static String most(double amount, String unit) {
    return "at most " + Written.number(amount) + " " + unit;
  }

  /** What a person should know about a configuration without faults. */
  public static List<String> warnings(ConfigurationFile file) {
    List<String> warnings = new ArrayList<>();
    pumpUnseen(file).ifPresent(warnings::add);
    file.notices().forEach(notice -> warnings.add(notice.render()));
    return List.copyOf(warnings);
  }

  private static Optional<String> pumpUnseen(ConfigurationFile file) {
    boolean entered =
        file.options().stream()
            .anyMatch(o -> o.path().equals("flow.stops_with_pump") && o.value().equals("false"));
    boolean board = file.configuration().field() instanceof Board;
    return board && !entered && file.configuration().scan().measure().pumpSign() == PumpSign.NONE
        ? Optional.of(
            "nothing tells when the pump rests, so a flow sensor that sticks cannot be found out;"
                + " fit the pump's contact (\"pump_on\" in inputs.fitted) or [board.relay.pump]")
        : Optional.empty();
  }

  /** The report as lines for a terminal. */
  public List<String> lines() {
    List<String> lines = new ArrayList<>();
    lines.add("Configuration " + file);
    String table = "";
    for (EffectiveOption option : options) {
      if (!option.table().equals(table)) {
        table = option.table();
        lines.add("[" + table + "]");
      }
      lines.add(optionLine(option));
    }
    lines.add("Inputs and outputs");
    for (Connection c : connections) {
      lines.add(
          String.format(
              Locale.ROOT,
              "  %-14s %-3s  %-10s  %s%s",
              c.role(),
              c.direction(),
              c.device(),
              c.where(),
              c.polarity().isEmpty() ? "" : ", " + c.polarity()));
    }
    lines.add("Limits, and the program's own bounds");
    for (Limit limit : limits) {
      lines.add(
          String.format(
                  Locale.ROOT, "  %-30s %-10s  %s", limit.key(), limit.value(), limit.hardBound())
              .stripTrailing());
    }
    return List.copyOf(lines);
  }

  private static String optionLine(EffectiveOption option) {
    return switch (option.origin()) {
      case FILE -> "  " + option.key() + " = " + option.value();
      case DEFAULT -> "  " + option.key() + " = " + option.value() + "  (default)";
      case ABSENT -> "  " + option.key() + ": none (" + option.value() + ")";
    };
  }
}
