package limnostat.config;

import java.math.BigDecimal;
import java.math.MathContext;
import org.tomlj.TomlArray;
import org.tomlj.TomlTable;

/** Values as people write them. */
final class Written {
  private Written() {}

  /** A number without exponent, to nine significant figures. */
  static String number(double value) {
    if (value == 0) {
      return "0"; // also for −0
    }
    return BigDecimal.valueOf(value).round(new MathContext(9)).stripTrailingZeros().toPlainString();
  }

  /** A value from the file, shortened to fit in a one-line message. */
  static String value(Object toml) {
    String text =
        toml instanceof String string
            ? '"' + string + '"'
            : toml instanceof TomlArray array ? array.toJson() : String.valueOf(toml);
    String line = text.strip().replaceAll("\\s+", " ");
    return line.length() <= 60 ? line : line.substring(0, 57) + "...";
  }

  /** The type of a value from the file. */
  static String type(Object toml) {
    if (toml instanceof String) {
      return "a text";
    } else if (toml instanceof Long) {
      return "a whole number";
    } else if (toml instanceof Double number) {
      return number.isNaN() ? "no number" : "a number";
    } else if (toml instanceof Boolean) {
      return "true or false";
    } else if (toml instanceof TomlArray) {
      return "a list";
    } else if (toml instanceof TomlTable) {
      return "a table";
    }
    return "a date or time";
  }
}
