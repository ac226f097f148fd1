package limnostat.season;

import com.fasterxml.jackson.annotation.JsonInclude;

/**
 * One contestant's results on one pool, by the true free chlorine outside the inlet zone.
 *
 * @param inBandPercent share of the time in the band
 * @param ofClairvoyantPercent the same as a percentage of the clairvoyant's on this pool
 * @param belowOnePercent share of the time below 1 mg/L
 * @param belowSanitisingPercent share of the time below a twentieth of the true stabiliser (as in
 *     SlowSettings)
 * @param aboveTenHours time above 10 mg/L, superchlorination excluded, h
 * @param highestMgL highest free chlorine, mg/L
 * @param fedG chlorine that was fed, g
 * @param fedOfClairvoyantPercent the same as a percentage of the clairvoyant's
 * @param switchingsPerDay number of times that chlorine was switched on, per day
 * @param tests number of water tests
 * @param daytime the hours from 9 to 21
 * @param silentHours longest time below 0.5 mg/L without an alarm of high priority that reports it,
 *     h; absent for a contestant without alarms
 * @param estimateErrorMgL root mean square of the estimate's error, mg/L; absent without an
 *     estimate
 * @param estimateCoveredPercent share of the time in which the truth is within two standard
 *     deviations of the estimate; absent without an estimate
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
record Score(
    double inBandPercent,
    double ofClairvoyantPercent,
    double belowOnePercent,
    double belowSanitisingPercent,
    double aboveTenHours,
    double highestMgL,
    double fedG,
    double fedOfClairvoyantPercent,
    double switchingsPerDay,
    int tests,
    Daytime daytime,
    Double silentHours,
    Double estimateErrorMgL,
    Double estimateCoveredPercent) {

  /**
   * The hours from 9 to 21 of the local day, when people bathe.
   *
   * @param inBandPercent share of them in the band
   * @param ofClairvoyantPercent the same as a percentage of the clairvoyant's on this pool
   * @param belowOnePercent share of them below 1 mg/L
   */
  record Daytime(double inBandPercent, double ofClairvoyantPercent, double belowOnePercent) {
    static final int FROM_HOUR = 9;
    static final int UNTIL_HOUR = 21;

    Daytime against(Daytime clairvoyant) {
      return new Daytime(
          inBandPercent, 100 * ratio(inBandPercent, clairvoyant.inBandPercent), belowOnePercent);
    }
  }

  Score against(Score clairvoyant) {
    return new Score(
        inBandPercent,
        100 * ratio(inBandPercent, clairvoyant.inBandPercent),
        belowOnePercent,
        belowSanitisingPercent,
        aboveTenHours,
        highestMgL,
        fedG,
        100 * ratio(fedG, clairvoyant.fedG),
        switchingsPerDay,
        tests,
        daytime.against(clairvoyant.daytime),
        silentHours,
        estimateErrorMgL,
        estimateCoveredPercent);
  }

  /**
   * If the clairvoyant itself achieves nothing, nothing can be achieved, so any result counts as
   * all of it.
   */
  private static double ratio(double value, double of) {
    return of > 0 ? value / of : 1;
  }
}
