package limnostat.account;

/**
 * What was given since local midnight and since the season began. Both are the difference of the
 * account's cumulative amounts to those at the beginning, so what a crash leaves open counts here
 * as it does there: too much, never too little.
 *
 * <p>A day is that of the local date. Without a trusted clock nobody knows the date: then a day is
 * 24 h of running, and marked.
 *
 * @param epochDay local date, days since 1970-01-01
 * @param dated whether the clock was trusted all day
 * @param dayS for how long the day has run, s
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

    /** Amounts read back from a ledger are checked as a stranger's would be. */
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
   * Time passes.
   *
   * @param given cumulative amounts after it
   * @param today local date, days since 1970-01-01
   */
  public Step step(Amounts given, long today, boolean clockTrusted, double elapsedS) {
    if (!begun()) {
      return new Step(
          new DoseTotals(today, clockTrusted, 0, given, now, now, today, clockTrusted), false);
    }
    boolean ended = clockTrusted ? today > epochDay : dayS + elapsedS >= DAY_S;
    if (!ended) {
      // A date that has gone back is a clock that was wrong: the same day goes on under the right
      // one, and is marked.
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
    // What this scan counts was given before or after midnight, nobody knows: the new day has it.
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
   * @param ended whether the day that went before is over; its totals are those before the step
   */
  public record Step(DoseTotals totals, boolean ended) {}

  /** The season's totals begin anew. */
  public DoseTotals seasonBegun() {
    return new DoseTotals(epochDay, dated, dayS, now, atDay, now, epochDay, dated);
  }
}
