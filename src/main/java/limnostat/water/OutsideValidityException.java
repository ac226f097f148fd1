package limnostat.water;

/**
 * Thrown for a value outside the range of an equation. The message names the quantity, its range
 * and the remedy.
 */
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
