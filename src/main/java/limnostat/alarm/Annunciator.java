package limnostat.alarm;

/** What is stored about all alarms together. */
public record Annunciator(FirstOut firstOut, Flood flood) {
  public static final Annunciator QUIET = new Annunciator(FirstOut.NONE, Flood.NONE);
}
