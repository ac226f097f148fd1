package limnostat.config;

import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import limnostat.config.Option.Absence;
import limnostat.measure.Role;
import org.tomlj.TomlPosition;
import org.tomlj.TomlTable;

/** Reads every declared option of a parsed file and refuses every unknown key. */
final class Reader {
  private static final Map<String, Option<?>> OPTIONS =
      Options.ALL.stream().collect(Collectors.toMap(Option::path, Function.identity()));
  private static final Set<String> TABLES = tables();

  /** Words that mean a secret. More people can read the file than should know the secret. */
  private static final Set<String> SECRETS =
      Set.of("password", "passwd", "passphrase", "secret", "token", "pin");

  private static final Pattern BARE = Pattern.compile("[A-Za-z0-9_-]+");

  private final Errors errors;
  private final Values values = new Values();

  /** Keys that should be tables but are not. What is missing in them is not reported as well. */
  private final Set<String> spoilt = new HashSet<>();

  private Reader(Errors errors) {
    this.errors = errors;
  }

  static Values read(TomlTable root, Errors errors) {
    Reader reader = new Reader(errors);
    reader.walk(root, "");
    Options.ALL.forEach(reader::fill);
    return reader.values;
  }

  /** Every table that contains an option, and its parent tables. */
  private static Set<String> tables() {
    Set<String> tables = new HashSet<>();
    for (Option<?> option : Options.ALL) {
      String table = option.table();
      tables.add(table);
      for (int dot = table.lastIndexOf('.'); dot > 0; dot = table.lastIndexOf('.', dot - 1)) {
        tables.add(table.substring(0, dot));
      }
    }
    return tables;
  }

  private void walk(TomlTable table, String above) {
    for (String key : table.keySet()) {
      String prefix = above.isEmpty() ? "" : above + ".";
      // A quoted key with a dot in it is not one of our paths.
      String path = prefix + (BARE.matcher(key).matches() ? key : '"' + key + '"');
      Object toml = table.get(List.of(key));
      TomlPosition position =
          Optional.ofNullable(table.inputPositionOf(List.of(key))).orElse(Errors.START);
      if (OPTIONS.containsKey(path)) {
        values.written(OPTIONS.get(path), position);
        OPTIONS
            .get(path)
            .form()
            .parse(toml, errors.of(position, path))
            .ifPresent(value -> values.accept(path, value));
      } else if (Retired.why(path).isPresent()) {
        values.notice(new Notice(position.line(), path, Retired.why(path).get()));
      } else if (!TABLES.contains(path) && !(toml instanceof TomlTable && Retired.table(path))) {
        unknown(toml, position, path, key, prefix);
      } else if (toml instanceof TomlTable inner) {
        values.table(path, position);
        walk(inner, path);
      } else {
        spoilt.add(path);
        errors.add(position, path, "is " + Written.type(toml), "a table", "write [" + path + "]");
      }
    }
  }

  private void unknown(Object toml, TomlPosition position, String path, String key, String prefix) {
    if (SECRETS.contains(key.toLowerCase(Locale.ROOT))) {
      errors.add(
          position,
          path,
          "a secret does not belong into this file",
          "",
          "put it into a file of its own and name that in mqtt.password_file");
      return;
    }
    boolean isTable = toml instanceof TomlTable;
    Set<String> siblings =
        (isTable ? TABLES : OPTIONS.keySet())
            .stream()
                .filter(known -> known.startsWith(prefix))
                .map(known -> known.substring(prefix.length()))
                .filter(known -> known.indexOf('.') < 0)
                .collect(Collectors.toSet());
    errors.add(
        position,
        path,
        isTable ? "unknown table" : "unknown key",
        "",
        Nearest.to(key, siblings)
            .map(near -> "perhaps " + prefix + near + " is meant")
            .or(() -> elsewhere(key))
            .or(() -> wrongKind(path, key))
            .orElse("remove it"));
  }

  /** A suggestion to use the same key in another table. */
  private static Optional<String> elsewhere(String key) {
    List<String> found =
        Options.ALL.stream()
            .filter(option -> option.key().equals(key))
            .map(Option::path)
            .limit(3)
            .toList();
    return found.isEmpty()
        ? Optional.empty()
        : Optional.of("perhaps " + String.join(" or ", found) + " is meant");
  }

  /** A suggestion for a role on the wrong kind of device. */
  private static Optional<String> wrongKind(String path, String key) {
    if (!path.startsWith("board.")) {
      return Optional.empty();
    }
    return Role.ofKey(key)
        .map(
            role ->
                switch (role.kind()) {
                  case ANALOG ->
                      role == Role.WATER_C
                          ? "use [board.thermometer]"
                          : "it is analog: use [board.analog." + key + "]";
                  case CONTACT -> "it is a contact: use [board.contact." + key + "]";
                  case EITHER -> "use [board.contact." + key + "] or [board.pulses]";
                });
  }

  /** Fills in the default of an option that is not in the file, or reports that it is missing. */
  private <T> void fill(Option<T> option) {
    boolean idle = Options.mayBeAbsent(option.table()) && !values.hasTable(option.table());
    if (values.isWritten(option) || idle || spoilt.contains(option.table())) {
      return;
    }
    if (option.absence() instanceof Absence.Default<T> fallback) {
      values.accept(option.path(), fallback.value());
    } else if (option.absence() instanceof Absence.Required<T>) {
      errors.add(
          values.positionOf(option.table()),
          option.path(),
          "is missing",
          option.form().limits(),
          "add " + option.key() + " to [" + option.table() + "]");
    }
  }
}
