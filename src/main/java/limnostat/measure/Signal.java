package limnostat.measure;

/** One field signal on one scan. A missing signal is a value with a reason, not a null. */
public sealed interface Signal {

  /** A quantity in the unit of its {@link Role}. */
  record Analog(double value) implements Signal {}

  /** A switch or contact. */
  record Contact(boolean closed) implements Signal {}

  /** The read failed, or nothing is fitted. The reason is a phrase for people to read. */
  record Missing(String reason) implements Signal {}
}
