package limnostat.field.board;

/** Reduces a chain of Pi4J exceptions, which wrap each other two or three deep, to one line. */
final class Causes {
  private Causes() {}

  /** The message of the innermost cause, or its class if it has no message. */
  static String innermost(Throwable thrown) {
    Throwable cause = thrown;
    while (cause.getCause() != null) {
      cause = cause.getCause();
    }
    String message = cause.getMessage();
    return message == null || message.isBlank() ? cause.getClass().getSimpleName() : message;
  }
}
