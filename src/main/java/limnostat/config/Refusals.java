package limnostat.config;

import org.tomlj.TomlPosition;

/** Receives the faults of one value. */
record Refusals(Errors errors, TomlPosition position, String key) {

  void refuse(String what, String limit, String mend) {
    errors.add(position, key, what, limit, mend);
  }

  /** The same, for a part of the value. */
  Refusals within(TomlPosition partPosition, String part) {
    return new Refusals(errors, partPosition, key + part);
  }
}
