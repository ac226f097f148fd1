package limnostat.measure;

/** What tells that the circulation pump rests, so that the flow sensor can be held against it. */
public enum PumpSign {
  /** Its contact. */
  CONTACT,
  /** The program's own request, which drives the pump. */
  REQUEST,
  /** Nothing: a flow sensor that sticks cannot be found out. */
  NONE;

  /**
   * Whether the pump is known to rest.
   *
   * @param requested whether the program has the pump run
   */
  public boolean rests(Signals signals, boolean requested) {
    return switch (this) {
      // A contact that cannot be read knows nothing.
      case CONTACT -> signals.of(Role.PUMP_ON) instanceof Signal.Contact c && !c.closed();
      case REQUEST -> !requested;
      case NONE -> false;
    };
  }
}
