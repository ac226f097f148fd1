package limnostat.control;

/**
 * What the control law remembers.
 *
 * @param mode who decides
 * @param manualDuty duty in manual, 0–1
 * @param targetMgL free-chlorine target, mg/L
 * @param fileTargetMgL target in the configuration file when this one was chosen, mg/L: a changed
 *     file overrides an old command
 * @param lastDuty duty of the last scan before any pause for acid, 0–1
 * @param transfer whether the next step hands over to the law
 * @param bump difference from the law that has yet to fade after the handover, duty
 * @param plan the plan of the day
 * @param superchlorination its progress
 * @param acid the acid feeder's progress
 * @param level what the law is based on
 * @param capacity whether the output can hold the target
 * @param beyond what was fed beyond the accounted demand
 * @param doubt conditions to report once they have lasted
 */
public record ControlState(
    Mode mode,
    double manualDuty,
    double targetMgL,
    double fileTargetMgL,
    double lastDuty,
    boolean transfer,
    double bump,
    Plan plan,
    Superchlorination superchlorination,
    AcidTurn acid,
    SettledLevel level,
    Capacity capacity,
    Beyond beyond,
    Doubt doubt) {

  /** Before the first scan. */
  public static ControlState start(double targetMgL) {
    return new ControlState(
        Mode.AUTO,
        0,
        targetMgL,
        targetMgL,
        0,
        false,
        0,
        Plan.NONE,
        Superchlorination.NONE,
        AcidTurn.IDLE,
        SettledLevel.START,
        Capacity.UNKNOWN,
        Beyond.NONE,
        Doubt.NONE);
  }

  /**
   * Changes the mode, without a step in the demanded duty on the way back to the law. Leaving auto
   * ends a superchlorination, and with it the wider limit of free chlorine: feeding by hand does
   * not raise free chlorine to a level. The re-entry hold stays.
   *
   * @param duty duty for manual, 0–1; not used otherwise
   */
  public ControlState withMode(Mode next, double duty) {
    return new ControlState(
        next,
        next == Mode.MANUAL ? duty : 0,
        targetMgL,
        fileTargetMgL,
        lastDuty,
        next == Mode.AUTO && mode != Mode.AUTO,
        0,
        plan,
        next == Mode.AUTO ? superchlorination : superchlorination.stop(),
        next == Mode.OFF ? AcidTurn.IDLE : acid,
        level,
        capacity,
        beyond,
        doubt);
  }

  public ControlState withTarget(double freeChlorineMgL) {
    return new ControlState(
        mode,
        manualDuty,
        freeChlorineMgL,
        fileTargetMgL,
        lastDuty,
        transfer,
        bump,
        plan.expired(),
        superchlorination,
        acid,
        level,
        capacity,
        beyond,
        doubt);
  }

  /** A person's test came in: plan again, and reset doubts and budgets. */
  public ControlState tested() {
    return new ControlState(
        mode,
        manualDuty,
        targetMgL,
        fileTargetMgL,
        lastDuty,
        transfer,
        bump,
        plan.expired(),
        superchlorination,
        acid,
        level,
        capacity,
        Beyond.NONE,
        Doubt.NONE);
  }

  public ControlState withSuperchlorination(Superchlorination next) {
    return new ControlState(
        mode,
        manualDuty,
        targetMgL,
        fileTargetMgL,
        lastDuty,
        transfer,
        bump,
        plan,
        next,
        acid,
        level,
        capacity,
        beyond,
        doubt);
  }

  /**
   * The configuration file may have changed at a restart. A new target overrides an old command,
   * and nothing stays above the installer's present limits.
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
        lastDuty,
        transfer,
        bump,
        plan.expired(),
        superchlorination.levelMgL() > superchlorinationMaxMgL
            ? superchlorination.stop()
            : superchlorination.within(superchlorinationMaxS),
        acid,
        level,
        capacity,
        beyond,
        doubt);
  }
}
