package limnostat.field.board;

/** What Pi4J wraps two or three times, in one line. */
final class Causes {
  private Causes() {}

  /** The message of the innermost cause, or its class where it has none. */
  static String innermost(Throwable thrown) {
    Throwable cause = thrown;
    while (cause.getCause() != null) {
      cause = cause.getCause();
    }
    String message = cause.getMessage();
    return message == null || message.isBlank() ? cause.getClass().getSimpleName() : message;
  }
}
