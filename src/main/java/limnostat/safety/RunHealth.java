package limnostat.safety;

import java.util.ArrayList;
import java.util.List;

/**
 * How the program itself has fared: how often it ended, whether its scans are punctual, whether the
 * doses of the last day are known. Ages are of time that has passed by the monotonic clock, and of
 * outages as far as they are proved: too little, never too much, so no clock shortens a hold.
 *
 * @param ends of earlier processes, within the window, oldest first
 * @param owed the end that this process begins with and has not entered yet
 * @param calmS for how long this process has run, s; at most the window
 * @param looping whether the process ends too often
 * @param overrun how many scans more than one in ten came late or took too long
 * @param overrunning whether that is too many
 * @param unknownS for how long the doses of the last 24 hours are still not known, s
 */
public record RunHealth(
    List<End> ends,
    Owed owed,
    double calmS,
    boolean looping,
    double overrun,
    boolean overrunning,
    double unknownS) {

  /** What is known of how the process before this one ended. */
  public enum Owed {
    NOTHING,
    CRASH,
    ORDERLY
  }

  /**
   * A process that ended.
   *
   * @param agoS s
   * @param orderly whether it was asked to stop, and had the time to
   */
  public record End(double agoS, boolean orderly) {
    public End {
      if (!(agoS >= 0)) {
        throw new IllegalArgumentException("a process that ended " + -agoS + " s from now");
      }
    }

    private double weight() {
      return orderly ? ORDERLY_WEIGHT : 1;
    }
  }

  /** An installer stops and starts a program again and again (engineering judgement). */
  private static final double ORDERLY_WEIGHT = 0.25;

  /** Ends that are kept; more than any window may hold without a loop. */
  private static final int ENDS_MAX = 4 * (HardBounds.RESTARTS_MAX + 1);

  /** A punctual scan makes up for so much of an overrun one: one in ten may overrun. */
  private static final double PUNCTUAL = 1.0 / 9;

  /** So many overruns make an alarm; it is over once they are made up for (judgement). */
  private static final double OVERRUNS = 10;

  private static final double DAY_S = 24 * 3600;

  public RunHealth {
    ends = List.copyOf(ends);
  }

  public static final RunHealth START =
      new RunHealth(List.of(), Owed.NOTHING, 0, false, 0, false, 0);

  /** In a new process, with the state that the one before saved. */
  RunHealth resumed(Owed ended) {
    return new RunHealth(ends, ended, 0, looping, 0, false, unknownS);
  }

  /** The ledger was lost: for a day nobody knows what the last 24 hours gave. */
  public RunHealth accountUnknown() {
    return new RunHealth(ends, owed, calmS, looping, overrun, overrunning, DAY_S);
  }

  /** A person has looked and takes the program to be sound. */
  public RunHealth reset() {
    return new RunHealth(List.of(), owed, calmS, false, overrun, overrunning, unknownS);
  }

  /**
   * @param overran whether the scan before came late or took too long
   */
  RunHealth step(RunLimits limits, boolean overran, double elapsedS) {
    List<End> recent = new ArrayList<>();
    for (End end : ends) {
      double agoS = end.agoS() + elapsedS;
      if (agoS < limits.windowS()) {
        recent.add(new End(agoS, end.orderly()));
      }
    }
    // The outage passes first: the end is taken to be as late as it can have been.
    double ranS = owed == Owed.NOTHING ? Math.min(limits.windowS(), calmS + elapsedS) : 0;
    if (owed != Owed.NOTHING) {
      recent.add(new End(0, owed == Owed.ORDERLY));
    }
    double weight = recent.stream().mapToDouble(End::weight).sum();
    boolean tooOften = weight > limits.restartsMax();
    double over = Math.max(0, Math.min(1.5 * OVERRUNS, overran ? overrun + 1 : overrun - PUNCTUAL));
    return new RunHealth(
        recent.subList(Math.max(0, recent.size() - ENDS_MAX), recent.size()),
        Owed.NOTHING,
        ranS,
        tooOften || (looping && ranS < limits.windowS()),
        over,
        over >= OVERRUNS || (overrunning && over > 0),
        Math.max(0, unknownS - elapsedS));
  }
}
