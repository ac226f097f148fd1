package limnostat.measure;

import java.util.EnumMap;
import java.util.Map;

/** All field signals of one scan, by role. A role without an entry was not read. */
public final class Signals {
  private static final Signal NOT_READ = new Signal.Missing("not read on this scan");

  private final Map<Role, Signal> byRole;

  private Signals(Map<Role, Signal> byRole) {
    this.byRole = byRole;
  }

  public static Signals of(Map<Role, Signal> byRole) {
    return new Signals(byRole.isEmpty() ? Map.of() : new EnumMap<>(byRole));
  }

  /** The signal of a role; never null. */
  public Signal of(Role role) {
    return byRole.getOrDefault(role, NOT_READ);
  }

  @Override
  public String toString() {
    return byRole.toString();
  }
}
