package limnostat.scan;

import limnostat.actuate.Output;
import limnostat.estimate.TestVerdict;

/**
 * S4, the blind budget: what the output physically gave while nothing trustworthy measured
 * chlorine, counted from raw signals. A believed test of free chlorine gives all of it back, a day
 * of good signals in a day. Before either has confirmed the water nothing is fed.
 *
 * <p>A process that knows of no state begins as on the first day, so here as well.
 */
final class BlindCount {
  private static final double DAY_S = 86_400;

  private boolean confirmed;
  private boolean blind;
  private double blindMgL;

  /**
   * @param nowBlind whether nothing trustworthy measures chlorine
   * @param good whether all of it does
   */
  void look(Seen seen, boolean nowBlind, boolean good) {
    double budgetMgL = seen.settings().limits().blindFeedMgL();
    double perMgLS =
        seen.settings().chlorine().caps().ratePerH() / 3600 / seen.settings().estimate().volumeM3();
    if (blind) {
      blindMgL += perMgLS * seen.driven().chlorine() * (seen.drivenUntilS() - seen.lastS());
    }
    // On one scan more may go in than was left, and a relay may owe a little.
    double mostMgL = budgetMgL + perMgLS * 60 + Rule.ROUNDING;
    Rule.require(
        blindMgL <= mostMgL,
        () -> "S4: fed " + blindMgL + " mg/L blind, limits.blind_feed " + budgetMgL);
    if (seen.start() == Seen.Start.FIRST || seen.start() == Seen.Start.FORGOTTEN) {
      confirmed = false;
      blindMgL = 0;
    }
    if (tested(seen)) {
      confirmed = true;
      blindMgL = 0;
    } else if (good) {
      confirmed = true;
      // Nobody looked during an interruption; an outage confirms nothing.
      double sawS = seen.interrupted() ? 0 : seen.in().elapsedS();
      blindMgL = Math.max(0, blindMgL - budgetMgL * sawS / DAY_S);
    }
    Rule.require(
        confirmed || !seen.on(Output.CHLORINE),
        () -> "S4: chlorine on before anything confirmed the water");
    blind = nowBlind;
  }

  /** A test of free chlorine that was taken, and is not doubted. */
  private static boolean tested(Seen seen) {
    boolean taken =
        seen.out().events().stream()
            .anyMatch(
                e ->
                    e instanceof ScanEvent.Accepted a
                        && a.request().command() instanceof Command.Test t
                        && t.test().ofFreeChlorine());
    TestVerdict verdict = seen.out().state().estimate().tests().verdict();
    return taken && verdict != TestVerdict.DOUBTED && verdict != TestVerdict.NONE;
  }
}
