package limnostat.safety;

/**
 * The installer's limits on what a person or a dashboard may set at run time, beside those that
 * {@link SafetyLimits} has. Each lies within {@link HardBounds}.
 *
 * @param manualDutyMax highest duty in manual, 0–1
 * @param superchlorinationMaxS longest superchlorination, s
 * @param shelfMaxS longest time that an alarm may be shelved for, s
 * @param manualMaxS longest time until manual ends, where it has an end, s
 */
public record SetpointLimits(
    double manualDutyMax, double superchlorinationMaxS, double shelfMaxS, double manualMaxS) {
  /** With as long a manual as the program allows. */
  public SetpointLimits(double manualDutyMax, double superchlorinationMaxS, double shelfMaxS) {
    this(manualDutyMax, superchlorinationMaxS, shelfMaxS, HardBounds.MANUAL_MAX_S);
  }

  /** As wide as the program allows. */
  public static final SetpointLimits WIDEST =
      new SetpointLimits(1, HardBounds.SUPERCHLORINATION_MAX_S, HardBounds.SHELF_MAX_S);
}
