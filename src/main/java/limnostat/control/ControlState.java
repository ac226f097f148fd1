package limnostat.control;

/**
 * What the control law remembers.
 *
 * @param mode who decides
 * @param manualDuty duty in manual, 0–1
 * @param targetMgL free-chlorine target, mg/L
 * @param fileTargetMgL target of the file when this was chosen, mg/L: a changed file goes before an
 *     old command
 * @param integral integral part of the feedback, duty
 * @param trim last feedback with a fresh ORP, duty: once ORP has failed, what it took off the
 *     learned demand stays off
 * @param lastDuty duty of the last scan as it was before any pause for acid, 0–1
 * @param lastGoodDuty demanded duty of the last scan in auto with a fresh ORP, 0–1: no failed
 *     signal leads above it
 * @param transfer whether the next step takes the law over from something else
 * @param plan duty of the plan, 0–1
 * @param planS for how long the plan has stood, s; infinite: none yet
 * @param bump difference to the law that is still to fade after that, duty
 * @param superchlorination its progress
 * @param acid the acid feeder's progress
 * @param ladder what the law stands on
 * @param capacity whether the output can hold the target
 */
public record ControlState(
    Mode mode,
    double manualDuty,
    double targetMgL,
    double fileTargetMgL,
    double integral,
    double trim,
    double lastDuty,
    double lastGoodDuty,
    boolean transfer,
    double bump,
    double plan,
    double planS,
    Superchlorination superchlorination,
    AcidTurn acid,
    Ladder ladder,
    Capacity capacity) {

  /** Until ORP has been seen once, nothing may be fed: the last good duty is 0. */
  public static ControlState start(double targetMgL) {
    return new ControlState(
        Mode.AUTO,
        0,
        targetMgL,
        targetMgL,
        0,
        0,
        0,
        0,
        false,
        0,
        0,
        Double.POSITIVE_INFINITY,
        Superchlorination.NONE,
        AcidTurn.IDLE,
        Ladder.START,
        Capacity.UNKNOWN);
  }

  /**
   * Another mode, without a step in the demanded duty on the way back to the law. To leave auto
   * ends a superchlorination, and with it the wider limit of free chlorine: what a person feeds by
   * hand is no raise to a level. The re-entry hold stays.
   *
   * @param duty duty for manual, 0–1; not used otherwise
   */
  public ControlState withMode(Mode next, double duty) {
    return new ControlState(
        next,
        next == Mode.MANUAL ? duty : 0,
        targetMgL,
        fileTargetMgL,
        integral,
        trim,
        lastDuty,
        lastGoodDuty,
        next == Mode.AUTO && mode != Mode.AUTO,
        0,
        plan,
        planS,
        next == Mode.AUTO ? superchlorination : superchlorination.stop(),
        next == Mode.OFF ? AcidTurn.IDLE : acid,
        ladder,
        capacity);
  }

  public ControlState withTarget(double freeChlorineMgL) {
    return new ControlState(
        mode,
        manualDuty,
        freeChlorineMgL,
        fileTargetMgL,
        integral,
        trim,
        lastDuty,
        lastGoodDuty,
        transfer,
        bump,
        plan,
        Double.POSITIVE_INFINITY,
        superchlorination,
        acid,
        ladder,
        capacity);
  }

  public ControlState withSuperchlorination(Superchlorination next) {
    return new ControlState(
        mode,
        manualDuty,
        targetMgL,
        fileTargetMgL,
        integral,
        trim,
        lastDuty,
        lastGoodDuty,
        transfer,
        bump,
        plan,
        planS,
        next,
        acid,
        ladder,
        capacity);
  }

  /**
   * After a restart the file may say something else: a new target goes before an old command, and
   * nothing stays above the installer's limits of now.
   *
   * @param highMgL highest target
   * @param superchlorinationMaxMgL highest level of a superchlorination
   * @param manualDutyMax highest duty in manual, 0–1
   * @param superchlorinationMaxS longest superchlorination, s
   */
  public ControlState resumed(
      double fileMgL,
      double highMgL,
      double superchlorinationMaxMgL,
      double manualDutyMax,
      double superchlorinationMaxS) {
    return new ControlState(
        mode,
        Math.min(manualDuty, manualDutyMax),
        Math.min(highMgL, fileMgL == fileTargetMgL ? targetMgL : fileMgL),
        fileMgL,
        integral,
        trim,
        lastDuty,
        lastGoodDuty,
        transfer,
        bump,
        plan,
        Double.POSITIVE_INFINITY,
        superchlorination.levelMgL() > superchlorinationMaxMgL
            ? superchlorination.stop()
            : superchlorination.within(superchlorinationMaxS),
        acid,
        ladder,
        capacity);
  }
}
