package limnostat.scan;

/**
 * What people asked for that outlasts the scan in which they did.
 *
 * @param answers what was answered lately
 * @param manual when manual is over
 * @param calibrations what was calibrated by command
 */
public record Asked(Answers answers, ManualEnd manual, Calibrations calibrations) {
  public static final Asked NOTHING =
      new Asked(Answers.NONE, ManualEnd.NONE, Calibrations.OF_THE_FILE);

  Asked with(Answers next) {
    return new Asked(next, manual, calibrations);
  }

  Asked with(ManualEnd next) {
    return new Asked(answers, next, calibrations);
  }

  Asked with(Calibrations next) {
    return new Asked(answers, manual, next);
  }
}
