package limnostat.field;

/**
 * An input or output that cannot be used: what failed, where (bus, address, line, file), and the
 * remedy.
 */
public final class FieldException extends Exception {
  private static final long serialVersionUID = 1L;

  public FieldException(String message, Throwable cause) {
    super(message, cause);
  }

  public FieldException(String message) {
    super(message);
  }
}
