package limnostat.alarm;

/** What is remembered of all alarms together. */
public record Annunciator(FirstOut firstOut, Flood flood) {
  public static final Annunciator QUIET = new Annunciator(FirstOut.NONE, Flood.NONE);
}
