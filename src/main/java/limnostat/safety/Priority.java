package limnostat.safety;

/** Alarm priority in the sense of ISA-18.2; NONE raises no alarm. */
public enum Priority {
  NONE,
  LOW,
  MEDIUM,
  HIGH,
  CRITICAL;

  public String key() {
    return name().toLowerCase(java.util.Locale.ROOT);
  }
}
