package limnostat.account;

import java.util.Arrays;

/**
 * What one output has given, and how much of it lies in the last hour and the last day.
 *
 * <p>It counts the time the program has run (and outages that are proved), never the wall clock, so
 * that no change of the clock moves a cap. Amounts are kept a minute each; a minute counts until
 * all of it has left the window, so the sums are never too small. The unit is that of {@link
 * DoseCaps}.
 *
 * @param given all that was ever given or counted as given
 * @param requested all that was ever asked to be booked in the ledger
 * @param minutes the last 24 hours' full minutes, oldest first; shared between states, never
 *     written to
 * @param current the minute that is filling
 * @param currentS how far it is filled, s
 * @param hour sum of the full minutes that touch the last hour
 * @param day sum of all full minutes
 */
@SuppressWarnings("ArrayRecordComponent") // equals and hashCode below take the array by content
public record DoseAccount(
    double given,
    double requested,
    double[] minutes,
    double current,
    double currentS,
    double hour,
    double day) {
  private static final int HOUR_MIN = 60;
  private static final int DAY_MIN = 24 * 60;
  private static final double MINUTE_S = 60;

  /** An account read back from a ledger is checked as a stranger's would be. */
  public DoseAccount {
    if (minutes.length != DAY_MIN
        || !Double.isFinite(given + requested + current + currentS + hour + day)
        || given < 0
        || current < 0
        || currentS < 0
        || hour < 0
        || day < 0) {
      throw new IllegalArgumentException(
          "account is not finite and positive: given " + given + ", last day " + day);
    }
  }

  public static DoseAccount empty() {
    return new DoseAccount(0, 0, new double[DAY_MIN], 0, 0, 0, 0);
  }

  /**
   * Nothing is known of the last day: both windows are full until time has emptied them. The total
   * goes on from what is known of it.
   */
  public DoseAccount unknown(DoseCaps caps) {
    DoseAccount beyond = new DoseAccount(given, given, new double[DAY_MIN], 0, 0, 0, 0);
    DoseAccount full = beyond.given(caps.dayCap(), 0);
    return full.asking(full.given);
  }

  /** Whether what can be given before the next scan would pass the cap of 60 minutes. */
  public boolean hourReached(DoseCaps caps) {
    return lastHour() + caps.perScan() > caps.hourCap();
  }

  /** Whether what can be given before the next scan would pass the cap of 24 hours. */
  public boolean dayReached(DoseCaps caps) {
    return lastDay() + caps.perScan() > caps.dayCap();
  }

  /** Given in the last 60 minutes, up to a minute too much. */
  public double lastHour() {
    return hour + current;
  }

  /** Given in the last 24 hours, up to a minute too much. */
  public double lastDay() {
    return day + current;
  }

  /**
   * Time passes, with an amount given in it; all of it is counted at the end of the time, the
   * latest it can have been.
   */
  public DoseAccount given(double amount, double elapsedS) {
    double filledS = currentS + elapsedS;
    if (filledS < MINUTE_S) {
      return new DoseAccount(
          given + amount, requested, minutes, current + amount, filledS, hour, day);
    }
    double closed = StrictMath.floor(filledS / MINUTE_S);
    double[] next = new double[DAY_MIN];
    if (closed <= DAY_MIN) {
      int full = (int) closed;
      System.arraycopy(minutes, full, next, 0, DAY_MIN - full);
      // The minute that was filling closes first; any further ones were empty.
      next[DAY_MIN - full] = current;
    }
    double restS = filledS - MINUTE_S * closed;
    return new DoseAccount(
        given + amount, requested, next, amount, restS, sum(next, HOUR_MIN), sum(next, DAY_MIN));
  }

  /**
   * Asks for the next block once less than half a block is left.
   *
   * @param wanted whether the output is about to give
   */
  public DoseAccount book(DoseCaps caps, boolean wanted) {
    boolean low = requested - given < caps.block() / 2;
    return wanted && low ? asking(given + caps.block()) : this;
  }

  /**
   * In a new process. After an orderly stop what was given is known, and the open block is drawn on
   * further; after any other end nobody knows how much of it was given.
   */
  public DoseAccount resumed(boolean orderly) {
    return orderly ? this : asking(given);
  }

  /**
   * What the ledger has booked beyond what this account stands for counts as given, now.
   *
   * @param booked by processes that are gone, cumulative
   */
  public DoseAccount unproven(double booked) {
    if (booked <= requested) {
      return this;
    }
    DoseAccount counted = booked > given ? given(booked - given, 0) : this;
    return counted.asking(counted.given);
  }

  private DoseAccount asking(double amount) {
    return new DoseAccount(given, amount, minutes, current, currentS, hour, day);
  }

  private static double sum(double[] minutes, int newest) {
    double sum = 0;
    // With the minute that is filling these always cover the whole window.
    for (int i = DAY_MIN - newest; i < DAY_MIN; i++) {
      sum += minutes[i];
    }
    return sum;
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof DoseAccount that
        && given == that.given
        && requested == that.requested
        && Arrays.equals(minutes, that.minutes)
        && current == that.current
        && currentS == that.currentS
        && hour == that.hour
        && day == that.day;
  }

  @Override
  public int hashCode() {
    return Double.hashCode(given) * 31 + Arrays.hashCode(minutes);
  }

  @Override
  public String toString() {
    return "given " + given + ", last hour " + lastHour() + ", last day " + lastDay();
  }
}
