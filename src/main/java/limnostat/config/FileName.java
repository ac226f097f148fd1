package limnostat.config;

import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.Optional;

/** A file or folder. A relative path is resolved against the configuration file's folder. */
record FileName() implements Form<Path> {
  @Override
  public Optional<Path> parse(Object toml, Refusals refusals) {
    if (!(toml instanceof String text)) {
      refusals.refuse(
          Written.value(toml) + " is " + Written.type(toml), limits(), "write a text in quotes");
      return Optional.empty();
    }
    try {
      if (!text.isBlank()) {
        return Optional.of(Path.of(text));
      }
      refusals.refuse("the path is empty", limits(), "name the file");
    } catch (InvalidPathException e) {
      refusals.refuse(
          Written.value(toml) + " is no path: " + e.getReason(), limits(), "name the file");
    }
    return Optional.empty();
  }

  @Override
  public String limits() {
    return "a path";
  }

  @Override
  public String show(Path value) {
    return value.toString();
  }
}
