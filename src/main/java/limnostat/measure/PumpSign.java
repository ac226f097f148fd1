package limnostat.measure;

/** The sign that the circulation pump is off, to check the flow sensor against it. */
public enum PumpSign {
  /** The pump's contact. */
  CONTACT,
  /** The program's own request, which drives the pump. */
  REQUEST,
  /** None: a stuck flow sensor cannot be detected. */
  NONE;

  /**
   * Whether the pump is known to be off.
   *
   * @param requested whether the program requests the pump
   */
  public boolean rests(Signals signals, boolean requested) {
    return switch (this) {
      // A contact that cannot be read proves nothing.
      case CONTACT -> signals.of(Role.PUMP_ON) instanceof Signal.Contact c && !c.closed();
      case REQUEST -> !requested;
      case NONE -> false;
    };
  }
}
