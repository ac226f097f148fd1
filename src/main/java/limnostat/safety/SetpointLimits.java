package limnostat.safety;

/**
 * The installer's limits on what a person or a dashboard may set at run time, in addition to those
 * in {@link SafetyLimits}. Each lies within {@link HardBounds}.
 *
 * @param manualDutyMax highest duty in manual mode, 0–1
 * @param superchlorinationMaxS longest superchlorination, s
 * @param shelfMaxS longest time for which an alarm may be shelved, s
 * @param manualMaxS longest time until manual mode ends, if it has an end time, s
 */
public record SetpointLimits(
    double manualDutyMax, double superchlorinationMaxS, double shelfMaxS, double manualMaxS) {
  /** With the longest manual mode that the program allows. */
  public SetpointLimits(double manualDutyMax, double superchlorinationMaxS, double shelfMaxS) {
    this(manualDutyMax, superchlorinationMaxS, shelfMaxS, HardBounds.MANUAL_MAX_S);
  }

  /** The widest limits that the program allows. */
  public static final SetpointLimits WIDEST =
      new SetpointLimits(1, HardBounds.SUPERCHLORINATION_MAX_S, HardBounds.SHELF_MAX_S);
}
