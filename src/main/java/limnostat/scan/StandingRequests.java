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
public record StandingRequests(
    Answers answers, ManualEnd manual, Calibrations calibrations, Additions additions) {
  public static final StandingRequests NOTHING =
      new StandingRequests(Answers.NONE, ManualEnd.NONE, Calibrations.OF_THE_FILE, Additions.NONE);

  StandingRequests with(Answers next) {
    return new StandingRequests(next, manual, calibrations, additions);
  }

  StandingRequests with(ManualEnd next) {
    return new StandingRequests(answers, next, calibrations, additions);
  }

  StandingRequests with(Calibrations next) {
    return new StandingRequests(answers, manual, next, additions);
  }

  StandingRequests with(Additions next) {
    return new StandingRequests(answers, manual, calibrations, next);
  }
}
