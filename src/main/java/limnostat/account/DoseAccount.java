package limnostat.account;

import java.util.Arrays;

/**
 * What one output has given in total, in the last hour and in the last day.
 *
 * <p>It counts the program's running time and proven outages, never the wall clock, so no change of
 * the clock moves a cap. Amounts are kept per minute. A minute counts until all of it has left the
 * window, so the sums are never too small. The unit is that of {@link DoseCaps}.
 *
 * @param given total amount ever given or counted as given
 * @param requested total amount ever requested for booking in the ledger
 * @param minutes amounts of the full minutes of the last 24 hours, oldest first; shared between
 *     states, never modified
 * @param current amount of the current, partial minute
 * @param currentS elapsed time of the current minute, s
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

  /** An account read back from a ledger is validated like any untrusted input. */
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
   * The last day is unknown: both windows count as full until time has emptied them. The total
   * continues from its last known value.
   */
  public DoseAccount unknown(DoseCaps caps) {
    DoseAccount beyond = new DoseAccount(given, given, new double[DAY_MIN], 0, 0, 0, 0);
    DoseAccount full = beyond.given(caps.dayCap(), 0);
    return full.asking(full.given);
  }

  /** Whether what can be given before the next scan would exceed the 60-minute cap. */
  public boolean hourReached(DoseCaps caps) {
    return lastHour() + caps.perScan() > caps.hourCap();
  }

  /** Whether what can be given before the next scan would exceed the 24-hour cap. */
  public boolean dayReached(DoseCaps caps) {
    return lastDay() + caps.perScan() > caps.dayCap();
  }

  /** Amount given in the last 60 minutes; it may cover up to a minute too much. */
  public double lastHour() {
    return hour + current;
  }

  /** Amount given in the last 24 hours; it may cover up to a minute too much. */
  public double lastDay() {
    return day + current;
  }

  /**
   * Advances time, with an amount given during it. All of the amount counts at the end of that
   * time, the latest that it can have been given.
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
      // The partial minute closes first; any further ones were empty.
      next[DAY_MIN - full] = current;
    }
    double restS = filledS - MINUTE_S * closed;
    return new DoseAccount(
        given + amount, requested, next, amount, restS, sum(next, HOUR_MIN), sum(next, DAY_MIN));
  }

  /**
   * Requests the next block once less than half a block is left.
   *
   * @param wanted whether the output is about to dose
   */
  public DoseAccount book(DoseCaps caps, boolean wanted) {
    boolean low = requested - given < caps.block() / 2;
    return wanted && low ? asking(given + caps.block()) : this;
  }

  /**
   * For a new process. After an orderly stop the amount given is known, and the open block stays in
   * use. After any other end it is unknown how much of the block was given.
   */
  public DoseAccount resumed(boolean orderly) {
    return orderly ? this : asking(given);
  }

  /**
   * Whatever the ledger has booked beyond this account counts as given, now.
   *
   * @param booked amount booked by processes that have ended, cumulative
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
    // Together with the partial minute these always cover the whole window.
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
