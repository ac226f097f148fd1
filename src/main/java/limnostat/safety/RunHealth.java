package limnostat.safety;

import java.util.ArrayList;
import java.util.List;

/**
 * The health of the program itself: how often it ended, whether its scans are punctual, and whether
 * the doses of the last day are known. Ages count the time on the monotonic clock, and outages as
 * far as they are proven. An age may be too low but never too high, so no clock shortens an
 * inhibit.
 *
 * @param ends ends of earlier processes within the window, oldest first
 * @param owed how the previous process ended, if that is not in {@code ends} yet
 * @param calmS for how long this process has run, s; at most the window
 * @param looping whether the process ends too often
 * @param overrun how many scans beyond one in ten started late or took too long
 * @param overrunning whether that is too many
 * @param unknownS remaining time for which the doses of the last 24 hours are not known, s
 */
public record RunHealth(
    List<End> ends,
    Owed owed,
    double calmS,
    boolean looping,
    double overrun,
    boolean overrunning,
    double unknownS) {

  /** How the previous process ended, as far as it is known. */
  public enum Owed {
    NOTHING,
    CRASH,
    ORDERLY
  }

  /**
   * A process that ended.
   *
   * @param agoS time since the end, s
   * @param orderly whether it was asked to stop and had time to do so
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

  /** An orderly stop counts less: an installer restarts a program often (engineering judgement). */
  private static final double ORDERLY_WEIGHT = 0.25;

  /** Most ends that are kept: more than a window can hold without counting as a restart loop. */
  private static final int ENDS_MAX = 4 * (HardBounds.RESTARTS_MAX + 1);

  /** Share of an overrun that one punctual scan makes up for: one scan in ten may overrun. */
  private static final double PUNCTUAL = 1.0 / 9;

  /**
   * This many overruns raise an alarm, which ends once they are made up for (engineering
   * judgement).
   */
  private static final double OVERRUNS = 10;

  private static final double DAY_S = 24 * 3600;

  public RunHealth {
    ends = List.copyOf(ends);
  }

  public static final RunHealth START =
      new RunHealth(List.of(), Owed.NOTHING, 0, false, 0, false, 0);

  /** For a new process, with the state that the previous one saved. */
  RunHealth resumed(Owed ended) {
    return new RunHealth(ends, ended, 0, looping, 0, false, unknownS);
  }

  /** The ledger was lost: for a day the doses of the last 24 hours are not known. */
  public RunHealth accountUnknown() {
    return new RunHealth(ends, owed, calmS, looping, overrun, overrunning, DAY_S);
  }

  /** A person has checked the program and considers it sound. */
  public RunHealth reset() {
    return new RunHealth(List.of(), owed, calmS, false, overrun, overrunning, unknownS);
  }

  /**
   * @param overran whether the previous scan started late or took too long
   */
  RunHealth step(RunLimits limits, boolean overran, double elapsedS) {
    List<End> recent = new ArrayList<>();
    for (End end : ends) {
      double agoS = end.agoS() + elapsedS;
      if (agoS < limits.windowS()) {
        recent.add(new End(agoS, end.orderly()));
      }
    }
    // The outage passes first: the end counts as late as it can have been.
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
