package limnostat.field.board;

import com.pi4j.boardinfo.definition.BoardModel;
import com.pi4j.boardinfo.util.BoardInfoHelper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import limnostat.config.FieldSettings;
import limnostat.measure.Signal;

/**
 * Checks whether this machine has what the configuration needs. It requests no line and drives
 * nothing, so it may run beside the daemon.
 */
public final class BoardCheck {
  private BoardCheck() {}

  /**
   * One check.
   *
   * @param good whether it passed
   * @param text what was found; if it did not pass, with the remedy
   */
  public record Finding(boolean good, String text) {}

  /** Checks this machine; takes about a second if there is a thermometer. */
  public static List<Finding> check(FieldSettings.Board settings) {
    return check(settings, Path.of("/dev"), BoardInfoHelper.current().getBoardModel());
  }

  /**
   * The same with another device tree and another board.
   *
   * @param dev where the device files are
   */
  static List<Finding> check(FieldSettings.Board settings, Path dev, BoardModel model) {
    List<Finding> findings = new ArrayList<>();
    if (usesLines(settings)) {
      findings.add(
          model == BoardModel.UNKNOWN
              ? new Finding(false, "board: " + BoardContext.UNKNOWN_BOARD)
              : new Finding(true, "board: " + model.getLabel()));
      findings.addAll(chips(dev));
    }
    if (!settings.analog().isEmpty()) {
      findings.add(
          device(
              dev.resolve("i2c-" + settings.i2cBus()),
              "I2C bus " + settings.i2cBus(),
              "enable it in the board's boot configuration"));
    }
    settings
        .thermometer()
        .map(oneWire -> thermometer(settings.sysfs(), oneWire.id()))
        .ifPresent(findings::add);
    return List.copyOf(findings);
  }

  private static boolean usesLines(FieldSettings.Board settings) {
    return !settings.relays().isEmpty()
        || settings.pumpRelay().isPresent()
        || !settings.contacts().isEmpty()
        || settings.pulses().isPresent();
  }

  /**
   * Only a chip's label shows which of several chips has the lines, so all of them must be
   * accessible.
   */
  private static List<Finding> chips(Path dev) {
    String mend = "use a kernel with GPIO character devices";
    try (Stream<Path> files = Files.list(dev)) {
      List<Finding> findings =
          files
              .filter(file -> file.getFileName().toString().startsWith("gpiochip"))
              .sorted()
              .map(file -> device(file, "GPIO chip", mend))
              .toList();
      return findings.isEmpty()
          ? List.of(new Finding(false, "GPIO chip: no " + dev + "/gpiochip*; " + mend))
          : findings;
    } catch (IOException e) {
      return List.of(
          new Finding(false, "GPIO chip: " + dev + " cannot be listed: " + Causes.innermost(e)));
    }
  }

  private static Finding device(Path file, String what, String mend) {
    if (!Files.exists(file)) {
      return new Finding(false, what + ": no " + file + "; " + mend);
    }
    if (!Files.isReadable(file) || !Files.isWritable(file)) {
      return new Finding(
          false, what + ": this user may not read and write " + file + "; " + groupMend(file));
    }
    return new Finding(true, what + ": " + file);
  }

  private static String groupMend(Path file) {
    if (!file.getFileSystem().supportedFileAttributeViews().contains("posix")) {
      return "give it access";
    }
    try {
      return "add it to the group " + Files.getAttribute(file, "posix:group");
    } catch (IOException e) {
      return "give it access (" + Causes.innermost(e) + ")";
    }
  }

  private static Finding thermometer(Path sysfs, String id) {
    Signal signal = new Thermometer(sysfs, id).read();
    if (signal instanceof Signal.Analog water) {
      return new Finding(
          true, String.format(Locale.ROOT, "1-wire thermometer %s: %.1f °C", id, water.value()));
    }
    return new Finding(false, ((Signal.Missing) signal).reason());
  }
}
