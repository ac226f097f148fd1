package limnostat.season;

import com.fasterxml.jackson.annotation.JsonInclude;

/**
 * How one contestant did on one pool, by the true free chlorine outside the inlet zone.
 *
 * @param inBandPercent share of the time in the band
 * @param ofClairvoyantPercent the same against the clairvoyant's on this pool
 * @param belowOnePercent share of the time below 1 mg/L
 * @param belowSanitisingPercent share of the time below a twentieth of the true stabiliser (as in
 *     SlowSettings)
 * @param aboveTenHours time above 10 mg/L outside superchlorination, h
 * @param highestMgL highest free chlorine, mg/L
 * @param fedG chlorine that went in, g
 * @param fedOfClairvoyantPercent the same against the clairvoyant's
 * @param switchingsPerDay times that chlorine was switched on, a day
 * @param tests water tests made
 * @param daytime the hours from 9 to 21
 * @param silentHours longest time below 0.5 mg/L with no alarm of high priority that speaks of it,
 *     h; absent for one that has no alarms
 * @param estimateErrorMgL root mean square of the estimate's error, mg/L; absent without estimate
 * @param estimateCoveredPercent share of the time in which the truth lay within two standard
 *     deviations of the estimate; absent without estimate
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
   * @param ofClairvoyantPercent the same against the clairvoyant's on this pool
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

  /** Where the clairvoyant itself has nothing, nothing is to be had: all of it. */
  private static double ratio(double value, double of) {
    return of > 0 ? value / of : 1;
  }
}
