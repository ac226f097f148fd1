package limnostat.account;

/**
 * Amounts given since local midnight and since the season began. Both are the difference between
 * the account's cumulative amounts now and at the beginning. So what a crash leaves unproven counts
 * here as it does there: too much, never too little.
 *
 * <p>A day follows the local date. Without a trusted clock the date is unknown: then a day is 24 h
 * of running time, and is marked.
 *
 * @param epochDay local date, days since 1970-01-01
 * @param dated whether the clock was trusted all day
 * @param dayS elapsed time of the day, s
 * @param now cumulative amounts
 * @param atDay the same when the day began
 * @param atSeason the same when the season began
 * @param seasonFromDay local date at which the season began
 * @param seasonDated whether the clock was trusted then
 */
public record DoseTotals(
    long epochDay,
    boolean dated,
    double dayS,
    Amounts now,
    Amounts atDay,
    Amounts atSeason,
    long seasonFromDay,
    boolean seasonDated) {
  private static final double DAY_S = 86_400;

  /**
   * @param chlorineG free chlorine, g
   * @param acidMl acid as fed, mL
   */
  public record Amounts(double chlorineG, double acidMl) {
    public static final Amounts NONE = new Amounts(0, 0);

    /** Amounts read back from a ledger are validated like any untrusted input. */
    public Amounts {
      if (!(chlorineG >= 0 && acidMl >= 0) || !Double.isFinite(chlorineG + acidMl)) {
        throw new IllegalArgumentException("amounts " + chlorineG + " g, " + acidMl + " mL");
      }
    }

    Amounts since(Amounts begin) {
      return new Amounts(
          Math.max(0, chlorineG - begin.chlorineG), Math.max(0, acidMl - begin.acidMl));
    }
  }

  /** Before the first scan ever: there is no day yet. */
  public static final DoseTotals START =
      new DoseTotals(
          Long.MIN_VALUE, true, 0, Amounts.NONE, Amounts.NONE, Amounts.NONE, Long.MIN_VALUE, true);

  public boolean begun() {
    return epochDay != Long.MIN_VALUE;
  }

  public Amounts day() {
    return now.since(atDay);
  }

  public Amounts season() {
    return now.since(atSeason);
  }

  /**
   * Advances time.
   *
   * @param given cumulative amounts after the step
   * @param today local date, days since 1970-01-01
   */
  public Step step(Amounts given, long today, boolean clockTrusted, double elapsedS) {
    if (!begun()) {
      return new Step(
          new DoseTotals(today, clockTrusted, 0, given, now, now, today, clockTrusted), false);
    }
    boolean ended = clockTrusted ? today > epochDay : dayS + elapsedS >= DAY_S;
    if (!ended) {
      // A date that goes back means that the clock was wrong: the same day continues under the
      // right date, and is marked.
      boolean relabelled = clockTrusted && today != epochDay;
      return new Step(
          new DoseTotals(
              relabelled ? today : epochDay,
              dated && clockTrusted && !relabelled,
              dayS + elapsedS,
              given,
              atDay,
              atSeason,
              seasonFromDay,
              seasonDated),
          false);
    }
    // It is unknown whether this scan's amount was given before or after midnight: the new day gets
    // it.
    return new Step(
        new DoseTotals(
            clockTrusted ? today : epochDay + 1,
            clockTrusted,
            0,
            given,
            now,
            atSeason,
            seasonFromDay,
            seasonDated),
        true);
  }

  /**
   * @param ended whether the previous day has ended; its totals are those before the step
   */
  public record Step(DoseTotals totals, boolean ended) {}

  /** Starts the season's totals again. */
  public DoseTotals seasonBegun() {
    return new DoseTotals(epochDay, dated, dayS, now, atDay, now, epochDay, dated);
  }
}
