package limnostat.config;

import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import limnostat.safety.Cause;
import limnostat.safety.Priority;
import org.tomlj.TomlArray;

/** Alarms by id. Critical alarms are not included, because they can never be silenced. */
record AlarmNames() implements Form<Set<Cause>> {
  private static List<String> names() {
    return Arrays.stream(Cause.values()).filter(AlarmNames::allowed).map(Cause::id).toList();
  }

  private static boolean allowed(Cause cause) {
    return cause.priority() != Priority.NONE && cause.priority() != Priority.CRITICAL;
  }

  @Override
  public Optional<Set<Cause>> parse(Object toml, Refusals refusals) {
    if (!(toml instanceof TomlArray list)) {
      refusals.refuse(
          Written.value(toml) + " is " + Written.type(toml),
          limits(),
          "write for instance [\"test_due\"]");
      return Optional.empty();
    }
    Set<Cause> alarms = EnumSet.noneOf(Cause.class);
    boolean good = true;
    for (Object item : list.toList()) {
      good &= add(item, alarms, refusals);
    }
    return good ? Optional.of(Set.copyOf(alarms)) : Optional.empty();
  }

  private static boolean add(Object item, Set<Cause> alarms, Refusals refusals) {
    Optional<Cause> cause = item instanceof String id ? Cause.ofId(id) : Optional.empty();
    if (cause.filter(AlarmNames::allowed).isEmpty()) {
      boolean critical = cause.filter(c -> c.priority() == Priority.CRITICAL).isPresent();
      refusals.refuse(
          Written.value(item)
              + (critical ? " is critical, and those stay in service" : " is not an alarm"),
          "an alarm of `check --matrix` that is not critical",
          Optional.of(item)
              .filter(String.class::isInstance)
              .filter(id -> !critical)
              .flatMap(id -> Nearest.to((String) id, names()))
              .map(near -> "perhaps \"" + near + "\" is meant")
              .orElse("leave it out"));
      return false;
    }
    if (!alarms.add(cause.get())) {
      refusals.refuse(Written.value(item) + " is named twice", "each once", "leave one out");
      return false;
    }
    return true;
  }

  @Override
  public String limits() {
    return "a list of alarms that are not critical";
  }

  @Override
  public String show(Set<Cause> value) {
    return value.stream()
        .sorted()
        .map(cause -> '"' + cause.id() + '"')
        .collect(Collectors.joining(", ", "[", "]"));
  }
}
