package limnostat.scan;

import limnostat.estimate.Additions;

/**
 * What people asked for that outlasts the scan in which they did.
 *
 * @param answers what was answered lately
 * @param manual when manual is over
 * @param calibrations what was calibrated by command
 * @param additions what people put into the pool by hand
 */
public record Asked(
    Answers answers, ManualEnd manual, Calibrations calibrations, Additions additions) {
  public static final Asked NOTHING =
      new Asked(Answers.NONE, ManualEnd.NONE, Calibrations.OF_THE_FILE, Additions.NONE);

  Asked with(Answers next) {
    return new Asked(next, manual, calibrations, additions);
  }

  Asked with(ManualEnd next) {
    return new Asked(answers, next, calibrations, additions);
  }

  Asked with(Calibrations next) {
    return new Asked(answers, manual, next, additions);
  }

  Asked with(Additions next) {
    return new Asked(answers, manual, calibrations, next);
  }
}
