package limnostat.config;

import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import limnostat.scan.Permit;
import org.tomlj.TomlArray;

/** The permissions for commands over the network, by name. */
record PermitNames() implements Form<Set<Permit>> {
  private static final List<String> NAMES =
      Arrays.stream(Permit.values()).map(Permit::key).toList();

  @Override
  public Optional<Set<Permit>> parse(Object toml, Refusals refusals) {
    if (!(toml instanceof TomlArray list)) {
      refusals.refuse(
          Written.value(toml) + " is " + Written.type(toml),
          limits(),
          "write for instance [\"test_result\", \"off\"]");
      return Optional.empty();
    }
    Set<Permit> permits = EnumSet.noneOf(Permit.class);
    boolean good = true;
    for (Object item : list.toList()) {
      good &= add(item, permits, refusals);
    }
    return good ? Optional.of(Set.copyOf(permits)) : Optional.empty();
  }

  private static boolean add(Object item, Set<Permit> permits, Refusals refusals) {
    Optional<Permit> permit = item instanceof String key ? Permit.ofKey(key) : Optional.empty();
    if (permit.isEmpty()) {
      boolean boardOnly = "season_reset".equals(item);
      refusals.refuse(
          Written.value(item)
              + (boardOnly
                  ? " is for a person at the board only"
                  : " is not a command that can be allowed"),
          String.join(", ", NAMES),
          Optional.of(item)
              .filter(String.class::isInstance)
              .filter(key -> !boardOnly)
              .flatMap(key -> Nearest.to((String) key, NAMES))
              .map(near -> "perhaps \"" + near + "\" is meant")
              .orElse("leave it out"));
      return false;
    }
    if (!permits.add(permit.get())) {
      refusals.refuse(Written.value(item) + " is named twice", "each once", "leave one out");
      return false;
    }
    return true;
  }

  @Override
  public String limits() {
    return "a list of " + String.join(", ", NAMES);
  }

  @Override
  public String show(Set<Permit> value) {
    return value.stream()
        .sorted()
        .map(permit -> '"' + permit.key() + '"')
        .collect(Collectors.joining(", ", "[", "]"));
  }
}
