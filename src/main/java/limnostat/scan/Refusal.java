package limnostat.scan;

/** Why a command is refused, as a clause for people. */
final class Refusal extends Exception {
  private static final long serialVersionUID = 1L;

  Refusal(String reason) {
    super(reason);
  }
}
