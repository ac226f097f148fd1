package limnostat.field.board;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import limnostat.measure.Signal;

/**
 * A 1-wire thermometer as the kernel presents it: a file of two lines. The first ends with the
 * result of the checksum, the second with the temperature in m°C. The kernel measures while the
 * file is read, which takes some 750 ms, so only the thread of its bus may use this class.
 */
final class Thermometer {
  private static final Pattern TEXT =
      Pattern.compile("((?:[0-9a-f]{2} )+): crc=[0-9a-f]{2} (YES|NO)\\s+.*t=(-?\\d{1,6})\\s*");

  /** A data line shorted to ground reads as zeros, and their checksum is zero too (practice). */
  private static final Pattern ALL_ZERO = Pattern.compile("(?:00 )+");

  /**
   * What the register holds from power-on until the first conversion (DS18B20 data sheet, from
   * memory). No pool is that hot, and an underpowered thermometer shows this value repeatedly, so
   * it is never used.
   */
  private static final int POWER_ON_MILLI_C = 85_000;

  private static final double MILLI = 1000;

  private final Path devices;
  private final String id;

  /**
   * @param sysfs root of the sysfs tree
   * @param id device id, {@code 28-...}
   */
  Thermometer(Path sysfs, String id) {
    this.devices = sysfs.resolve("bus/w1/devices");
    this.id = id;
  }

  /** Water temperature, °C. */
  Signal read() {
    Path file = devices.resolve(id).resolve("w1_slave");
    try {
      return parse(Files.readString(file));
    } catch (NoSuchFileException e) {
      return missing("is not on the bus (no " + file + "): " + present());
    } catch (IOException e) {
      return missing(
          "cannot be read: " + Causes.innermost(e) + "; check that this user may read " + file);
    }
  }

  private Signal parse(String text) {
    Matcher matcher = TEXT.matcher(text);
    if (!matcher.matches()) {
      return missing("gave an unreadable answer; check the wires and the pull-up resistor");
    }
    if (matcher.group(2).equals("NO")) {
      return missing("failed its checksum; check the wires and the pull-up resistor");
    }
    if (ALL_ZERO.matcher(matcher.group(1)).matches()) {
      return missing("answers nothing but zeros; check the data line for a short to ground");
    }
    int milliC = Integer.parseInt(matcher.group(3));
    if (milliC == POWER_ON_MILLI_C) {
      return missing("shows its power-on value of 85 °C; check its supply");
    }
    return new Signal.Analog(milliC / MILLI);
  }

  private String present() {
    if (!Files.isDirectory(devices)) {
      return "the board has no 1-wire bus; enable it in the boot configuration";
    }
    try (Stream<Path> entries = Files.list(devices)) {
      List<String> ids =
          entries
              .map(entry -> entry.getFileName().toString())
              .filter(name -> !name.startsWith("w1_bus_master"))
              .sorted()
              .toList();
      return ids.isEmpty()
          ? "no device answers; check the wires and the pull-up resistor"
          : "found " + String.join(", ", ids) + "; set the id to the thermometer's";
    } catch (IOException e) {
      return devices + " cannot be listed: " + Causes.innermost(e);
    }
  }

  private Signal missing(String clause) {
    return new Signal.Missing("1-wire thermometer " + id + " " + clause);
  }
}
