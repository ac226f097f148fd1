package limnostat.config;

import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import limnostat.measure.Role;
import org.tomlj.TomlArray;

/** The inputs of an installation beyond those that every installation has. */
record FittedRoles() implements Form<Set<Role>> {
  /** Control is impossible without these. */
  static final Set<Role> ALWAYS = Set.of(Role.ORP_MV, Role.PH_MV, Role.WATER_C, Role.FLOW);

  private static List<String> names() {
    return Arrays.stream(Role.values())
        .filter(role -> !ALWAYS.contains(role))
        .map(Role::key)
        .toList();
  }

  @Override
  public Optional<Set<Role>> parse(Object toml, Refusals refusals) {
    if (!(toml instanceof TomlArray list)) {
      refusals.refuse(
          Written.value(toml) + " is " + Written.type(toml),
          limits(),
          "write for instance [\"cell_a\"]");
      return Optional.empty();
    }
    Set<Role> roles = EnumSet.noneOf(Role.class);
    boolean good = true;
    for (Object item : list.toList()) {
      good &= add(item, roles, refusals);
    }
    return good ? Optional.of(Set.copyOf(roles)) : Optional.empty();
  }

  private boolean add(Object item, Set<Role> roles, Refusals refusals) {
    Optional<Role> role = item instanceof String name ? Role.ofKey(name) : Optional.empty();
    if (role.isEmpty()) {
      refusals.refuse(
          Written.value(item) + " is not an input",
          limits(),
          Optional.of(item)
              .filter(String.class::isInstance)
              .flatMap(name -> Nearest.to((String) name, names()))
              .map(name -> "perhaps \"" + name + "\" is meant")
              .orElse("choose from them"));
      return false;
    }
    if (ALWAYS.contains(role.get())) {
      refusals.refuse(Written.value(item) + " is always fitted", limits(), "leave it out");
      return false;
    }
    if (!roles.add(role.get())) {
      refusals.refuse(Written.value(item) + " is named twice", limits(), "leave one out");
      return false;
    }
    return true;
  }

  @Override
  public String limits() {
    return "a list of " + String.join(", ", names());
  }

  @Override
  public String show(Set<Role> value) {
    return value.stream()
        .sorted()
        .map(role -> '"' + role.key() + '"')
        .collect(Collectors.joining(", ", "[", "]"));
  }
}
