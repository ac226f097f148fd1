package limnostat.config;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Collectors;

/** Configuration texts for the tests. */
final class Sample {
  private Sample() {}

  /** Every required option and nothing else; the tests rely on its line numbers. */
  static final String MINIMAL =
      """
      [site]
      id = "garden"
      latitude = "50 deg"
      longitude = "10 deg"
      time_zone = "Europe/Berlin"
      [pool]
      volume = "50 m3"
      [limits]
      chlorine_hour = "20 g"
      chlorine_day = "160 g"
      [pump]
      windows = ["09:00-17:00"]
      [chlorine]
      source = "salt_cell"
      output = "20 g/h"
      [field]
      driver = "simulated"
      [ledger]
      file = "limnostat.db"
      """;

  /** A board with the four inputs and one output that every installation has, from line 20. */
  static final String BOARD =
      """
      [board.analog.orp_mv]
      address = 0x48
      channel = 0
      [board.analog.ph_mv]
      address = 0x48
      channel = 1
      zero = "1024 mV"
      [board.thermometer]
      id = "28-0123456789ab"
      [board.contact.flow]
      line = 17
      [board.relay.chlorine]
      line = 23
      active = "high"
      """;

  static final String MINIMAL_BOARD = edit(MINIMAL, "\"simulated\"", "\"board\"") + BOARD;

  static final Path SHIPPED = Path.of("config", "limnostat.toml");

  static String shipped() {
    try {
      return Files.readString(SHIPPED);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** The shipped file with its wiring example in force. */
  static String shippedBoard() {
    String text = shipped();
    int from = text.indexOf("#[board]");
    int to = text.indexOf("[mqtt]");
    String wiring =
        text.substring(from, to)
            .lines()
            .map(line -> line.matches("#\\S.*") ? line.substring(1) : line)
            .collect(Collectors.joining("\n"));
    return edit(
        text.substring(0, from) + wiring + "\n" + text.substring(to),
        "driver = \"simulated\"",
        "driver = \"board\"");
  }

  static String edit(String text, String from, String to) {
    if (!text.contains(from)) {
      throw new IllegalArgumentException("the text has no " + from);
    }
    return text.replace(from, to);
  }

  static ConfigurationFile load(Path folder, String text) throws ConfigurationException {
    Path file = folder.resolve("limnostat.toml");
    try {
      // not writeString: it refuses half of a surrogate pair, which the mutations make
      Files.write(file, text.getBytes(StandardCharsets.UTF_8));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return ConfigurationFile.load(file);
  }

  /** The faults of a text without the file's name, or nothing if it is accepted. */
  static List<String> faults(Path folder, String text) {
    try {
      load(folder, text);
      return List.of();
    } catch (ConfigurationException e) {
      String prefix = folder.resolve("limnostat.toml") + ":";
      return e.errors().stream()
          .map(ConfigurationError::render)
          .map(line -> line.startsWith(prefix) ? line.substring(prefix.length()) : line)
          .toList();
    }
  }
}
