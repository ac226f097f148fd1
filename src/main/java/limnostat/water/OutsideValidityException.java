package limnostat.water;

/** A value for which nothing here holds: names it, its range and the mend. */
public final class OutsideValidityException extends IllegalArgumentException {
  private static final long serialVersionUID = 1L;

  OutsideValidityException(Validity validity, double value) {
    super(
        validity.quantity()
            + ": "
            + validity.shown(value)
            + " is outside "
            + validity.limits()
            + "; "
            + validity.mend());
  }
}
