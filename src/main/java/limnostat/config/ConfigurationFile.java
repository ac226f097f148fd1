package limnostat.config;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.CharsetDecoder;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.tomlj.Toml;
import org.tomlj.TomlParseError;
import org.tomlj.TomlParseResult;
import org.tomlj.TomlPosition;

/**
 * One configuration file that has no faults.
 *
 * @param path the file
 * @param configuration what the program takes from it
 * @param options every option, with its value and whether it comes from the file
 * @param notices remarks that are not faults
 */
public record ConfigurationFile(
    Path path, Configuration configuration, List<EffectiveOption> options, List<Notice> notices) {

  /** A larger file cannot be a configuration. The bound also limits the parser's depth and time. */
  private static final int MOST_BYTES = 256 * 1024;

  /**
   * Reads and checks a file.
   *
   * @throws ConfigurationException with every fault, by position
   */
  public static ConfigurationFile load(Path path) throws ConfigurationException {
    Errors errors = new Errors(path);
    String text = text(path, errors);
    errors.throwIfAny();
    TomlParseResult toml = parse(text, errors);
    errors.throwIfAny();
    Values values = Reader.read(toml, errors);
    CrossChecks.check(values, errors);
    errors.throwIfAny();
    Path folder = path.toAbsolutePath().normalize().getParent();
    return new ConfigurationFile(
        path,
        SettingsBuilder.configuration(values, folder),
        EffectiveOption.all(values),
        values.notices());
  }

  /**
   * Every option that affects control, by its path, as people write it. The broker and ledger
   * options are left out, except {@code mqtt.allow}, which lists the permitted commands.
   */
  public Map<String, String> controlling() {
    Map<String, String> controlling = new TreeMap<>();
    for (EffectiveOption option : options) {
      boolean link = option.table().equals("mqtt") || option.table().equals("ledger");
      if (!link || option.path().equals("mqtt.allow")) {
        controlling.put(option.path(), option.value());
      }
    }
    return controlling;
  }

  private static String text(Path path, Errors errors) {
    try {
      if (Files.size(path) > MOST_BYTES) {
        errors.add(
            Errors.START, "", "the file is too large", "at most 256 KiB", "name the right file");
        return "";
      }
      return decode(Files.readAllBytes(path), errors);
    } catch (NoSuchFileException e) {
      errors.add(Errors.START, "", "there is no such file", "", "name a file that is there");
    } catch (AccessDeniedException e) {
      errors.add(
          Errors.START, "", "the file may not be read", "", "give its user or group the right");
    } catch (IOException e) {
      errors.add(
          Errors.START,
          "",
          "the file cannot be read: " + e.getMessage(),
          "",
          "name a readable file, not a folder");
    }
    return "";
  }

  private static String decode(byte[] bytes, Errors errors) {
    CharsetDecoder decoder =
        StandardCharsets.UTF_8
            .newDecoder()
            .onMalformedInput(CodingErrorAction.REPORT)
            .onUnmappableCharacter(CodingErrorAction.REPORT);
    ByteBuffer in = ByteBuffer.wrap(bytes);
    CharBuffer out = CharBuffer.allocate(bytes.length + 1);
    boolean bad = decoder.decode(in, out, true).isError();
    String text = out.flip().toString();
    if (bad) {
      int line = 1 + (int) text.chars().filter(c -> c == '\n').count();
      int column = text.length() - text.lastIndexOf('\n');
      errors.add(
          TomlPosition.positionAt(line, column),
          "",
          "the file is not UTF-8 here",
          "UTF-8",
          "save it as UTF-8");
    }
    return text;
  }

  private static TomlParseResult parse(String text, Errors errors) {
    TomlParseResult toml;
    try {
      toml = Toml.parse(text);
    } catch (StackOverflowError e) {
      // The parser recurses into nested lists and tables. No real file is nested deeply enough to
      // get here.
      errors.add(Errors.START, "", "lists or tables are nested too deeply", "", "undo the nesting");
      return Toml.parse("");
    }
    for (TomlParseError error : toml.errors()) {
      TomlPosition position = error.position();
      errors.add(position, "", error.getMessage(), "", "correct the TOML here");
    }
    return toml;
  }
}
