package limnostat.config;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** One word from a fixed list: the names of an enum's constants in lower case. */
record Choice<E extends Enum<E>>(List<E> values) implements Form<E> {
  static <E extends Enum<E>> Choice<E> of(Class<E> type) {
    return new Choice<>(Arrays.asList(type.getEnumConstants()));
  }

  @Override
  public Optional<E> parse(Object toml, Refusals refusals) {
    if (!(toml instanceof String text)) {
      refusals.refuse(
          Written.value(toml) + " is " + Written.type(toml), limits(), "write a text in quotes");
      return Optional.empty();
    }
    Optional<E> chosen = values.stream().filter(value -> show(value).equals(text)).findFirst();
    if (chosen.isEmpty()) {
      List<String> names = values.stream().map(this::show).toList();
      refusals.refuse(
          Written.value(toml) + " is not one of the choices",
          limits(),
          Nearest.to(text, names)
              .map(name -> "perhaps \"" + name + "\" is meant")
              .orElse("choose one of them"));
    }
    return chosen;
  }

  @Override
  public String limits() {
    return String.join(", ", values.stream().map(this::show).toList());
  }

  @Override
  public String show(E value) {
    return value.name().toLowerCase(Locale.ROOT);
  }
}
