package limnostat.scan;

import limnostat.estimate.Additions;

/**
 * Requests by people that outlast the scan in which they came.
 *
 * @param answers recent answers
 * @param manual when manual mode ends
 * @param calibrations calibrations by command
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
