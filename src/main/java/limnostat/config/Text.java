package limnostat.config;

import java.util.Optional;
import java.util.regex.Pattern;

/**
 * A text of a given form.
 *
 * @param limits the form in words
 */
record Text(Pattern pattern, String limits) implements Form<String> {
  static Text of(String pattern, String limits) {
    return new Text(Pattern.compile(pattern), limits);
  }

  @Override
  public Optional<String> parse(Object toml, Refusals refusals) {
    if (!(toml instanceof String text)) {
      refusals.refuse(
          Written.value(toml) + " is " + Written.type(toml), limits, "write a text in quotes");
      return Optional.empty();
    }
    if (!pattern.matcher(text).matches()) {
      refusals.refuse(
          Written.value(toml) + " does not have the right form", limits, "correct the text");
      return Optional.empty();
    }
    return Optional.of(text);
  }

  @Override
  public String show(String value) {
    return value;
  }
}
