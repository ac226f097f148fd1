package limnostat.faults;

import java.util.function.Consumer;
import limnostat.safety.Cause;

/**
 * One fault.
 *
 * @param cause the matrix row that has to respond
 * @param fault what goes wrong, as text for people
 * @param comes makes the fault
 * @param withinS by then the cause is active and, if it inhibits or limits an output, the output is
 *     safe, s
 * @param goes clears the fault
 */
record Injection(
    Cause cause,
    String fault,
    Setup setup,
    Consumer<FaultBench> comes,
    double withinS,
    Consumer<FaultBench> goes) {
  /** While chlorine is fed in manual mode. */
  static Injection chlorine(
      Cause cause,
      String fault,
      Consumer<FaultBench> comes,
      double withinS,
      Consumer<FaultBench> goes) {
    return new Injection(cause, fault, Setup.CHLORINE, comes, withinS, goes);
  }

  /** Nothing to do: the fault follows from feeding, or clears with time. */
  static void nothing(FaultBench bench) {}
}
