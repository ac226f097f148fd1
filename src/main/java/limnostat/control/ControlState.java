package limnostat.control;

/**
 * What the control law remembers.
 *
 * @param mode who decides
 * @param manualDuty duty in manual, 0–1
 * @param targetMgL free-chlorine target, mg/L
 * @param integral integral part of the feedback, duty
 * @param trim last feedback with a fresh ORP, duty: once ORP has failed, what it took off the
 *     learned demand stays off
 * @param lastDuty demanded duty of the last scan, 0–1
 * @param lastGoodDuty demanded duty of the last scan in auto with a fresh ORP, 0–1: no failed
 *     signal leads above it
 * @param transfer whether the next step takes the law over from something else
 * @param bump difference to the law that is still to fade after that, duty
 * @param superchlorination its progress
 * @param acid the acid feeder's progress
 */
public record ControlState(
    Mode mode,
    double manualDuty,
    double targetMgL,
    double integral,
    double trim,
    double lastDuty,
    double lastGoodDuty,
    boolean transfer,
    double bump,
    Superchlorination superchlorination,
    AcidTurn acid) {

  /** Until ORP has been seen once, nothing may be fed: the last good duty is 0. */
  public static ControlState start(double targetMgL) {
    return new ControlState(
        Mode.AUTO, 0, targetMgL, 0, 0, 0, 0, false, 0, Superchlorination.NONE, AcidTurn.IDLE);
  }

  /**
   * Another mode, without a step in the demanded duty on the way back to the law.
   *
   * @param duty duty for manual, 0–1; not used otherwise
   */
  public ControlState withMode(Mode next, double duty) {
    boolean off = next == Mode.OFF;
    return new ControlState(
        next,
        next == Mode.MANUAL ? duty : 0,
        targetMgL,
        integral,
        trim,
        lastDuty,
        lastGoodDuty,
        next == Mode.AUTO && mode != Mode.AUTO,
        0,
        off ? superchlorination.stop() : superchlorination,
        off ? AcidTurn.IDLE : acid);
  }

  public ControlState withTarget(double freeChlorineMgL) {
    return new ControlState(
        mode,
        manualDuty,
        freeChlorineMgL,
        integral,
        trim,
        lastDuty,
        lastGoodDuty,
        transfer,
        bump,
        superchlorination,
        acid);
  }

  public ControlState withSuperchlorination(Superchlorination next) {
    return new ControlState(
        mode,
        manualDuty,
        targetMgL,
        integral,
        trim,
        lastDuty,
        lastGoodDuty,
        transfer,
        bump,
        next,
        acid);
  }
}
