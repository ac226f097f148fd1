package limnostat.rig;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;
import limnostat.scan.Permit;

/** The shipped configuration with changes, for the tests. */
public final class ConfigText {
  private final List<String> lines;

  private ConfigText(List<String> lines) {
    this.lines = lines;
  }

  /** The shipped one, with both outputs. */
  public static ConfigText shipped() throws IOException {
    return new ConfigText(Files.readAllLines(Path.of("config", "limnostat.toml")));
  }

  /**
   * One on a simulated pool that feeds chlorine some seconds after the start: water below the
   * target, the pump always on, waits as short as they may be, no acid to keep apart from, no limit
   * that a season could reach.
   */
  public static ConfigText feedingSoon() throws IOException {
    return shipped()
        .withoutAcid()
        .with("scan.period", "\"0.2 s\"")
        // So little, so far below the target, and at all hours, that the plan wants all that the
        // output gives, and the budget of one word alone does not end it.
        .with("pool.free_chlorine", "\"0.5 mg/L\"")
        .with("limits.blind_feed", "\"8 mg/L\"")
        .with("target.free_chlorine", "\"6 mg/L\"")
        .with("target.hours", "[]")
        .with("limits.free_chlorine_high", "\"7 mg/L\"")
        .with("limits.water_min", "\"0 degC\"")
        .with("limits.flow_proving", "\"5 s\"")
        .with("pump.windows", "[]")
        .with("chlorine.min_off", "\"0 s\"")
        // A new process waits as long as a rest that the last one may have begun.
        .with("chlorine.rest", "\"0 min\"")
        .with("probes.fresh_water", "\"0 min\"")
        .with("ledger.readings_every", "\"1 s\"")
        .with(
            "mqtt.allow",
            Arrays.stream(Permit.values())
                .map(permit -> '"' + permit.key() + '"')
                .collect(Collectors.joining(", ", "[", "]")));
  }

  /** The same on a board, with the wiring of the shipped file's example. */
  public static ConfigText board() throws IOException {
    ConfigText text = feedingSoon().with("field.driver", "\"board\"");
    int from = text.lines.indexOf("#[board]");
    int to = text.lines.indexOf("[mqtt]");
    List<String> wired = new ArrayList<>(text.lines);
    for (int i = from; i < to; i++) {
      wired.set(i, wired.get(i).replaceFirst("^#(?=\\S)", ""));
    }
    return new ConfigText(wired);
  }

  private ConfigText withoutAcid() {
    List<String> changed = new ArrayList<>(lines);
    changed.removeIf(line -> line.startsWith("acid_hour =") || line.startsWith("acid_day ="));
    for (String section : List.of("[acid]", "#[board.relay.acid]")) {
      int from = changed.indexOf(section);
      changed.remove(from);
      while (!changed.get(from).matches("#?\\[.*")) {
        changed.remove(from);
      }
    }
    return new ConfigText(changed);
  }

  /**
   * @param key section and key, {@code section.key}; in the file it may be commented out
   * @param value as TOML has it
   */
  public ConfigText with(String key, String value) {
    String section = "[" + key.substring(0, key.lastIndexOf('.')) + "]";
    String name = key.substring(key.lastIndexOf('.') + 1) + " = ";
    List<String> changed = new ArrayList<>(lines);
    for (int i = lines.indexOf(section) + 1; i > 0 && i < lines.size(); i++) {
      String line = lines.get(i);
      if (line.startsWith(name) || line.startsWith("#" + name)) {
        changed.set(i, name + value);
        return new ConfigText(changed);
      }
      if (line.startsWith("[")) {
        break;
      }
    }
    throw new IllegalArgumentException("the file has no " + key);
  }

  public ConfigText withBroker(int port) {
    return with("mqtt.host", "\"127.0.0.1\"").with("mqtt.port", "" + port);
  }

  public ConfigText withoutBroker() {
    return with("mqtt.enabled", "false");
  }

  /** Writes it, as {@code limnostat.toml}; the ledger is beside it. */
  public Path write(Path folder) throws IOException {
    return Files.writeString(
        folder.resolve("limnostat.toml"),
        lines.stream().collect(Collectors.joining("\n", "", "\n")));
  }
}
