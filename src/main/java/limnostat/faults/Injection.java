package limnostat.faults;

import java.util.function.Consumer;
import limnostat.safety.Cause;

/**
 * One fault.
 *
 * @param cause the row of the matrix that has to answer
 * @param fault what goes wrong, for people
 * @param comes puts it wrong
 * @param withinS by then the cause counts and, where it takes something away, the output is safe, s
 * @param goes puts it right
 */
record Injection(
    Cause cause,
    String fault,
    Setup setup,
    Consumer<FaultBench> comes,
    double withinS,
    Consumer<FaultBench> goes) {
  /** While chlorine is fed by hand. */
  static Injection chlorine(
      Cause cause,
      String fault,
      Consumer<FaultBench> comes,
      double withinS,
      Consumer<FaultBench> goes) {
    return new Injection(cause, fault, Setup.CHLORINE, comes, withinS, goes);
  }

  /** It comes of feeding, or goes with time. */
  static void nothing(FaultBench bench) {}
}
