package limnostat.measure;

/**
 * What the probes need from a person although their signals are good. NE 107 calls most of it
 * maintenance required.
 *
 * @param orpCalibrationDue whether the ORP probe's calibration is too old
 * @param phCalibrationDue the same for the pH electrode
 * @param orp status of the ORP probe by its offset
 * @param ph status of the pH electrode by its slope and offset
 * @param phDisagrees whether a person's tests contradict the pH electrode
 * @param waterDisagrees whether the thermometer has moved as the water cannot
 * @param phUnexplained whether pH has moved further than what was fed and the air can explain
 */
public record Upkeep(
    boolean orpCalibrationDue,
    boolean phCalibrationDue,
    Status orp,
    Status ph,
    boolean phDisagrees,
    boolean waterDisagrees,
    boolean phUnexplained) {

  public static final Upkeep NONE = new Upkeep(false, false, Status.GOOD, Status.GOOD, false);

  /** For probes that agree with the model of the water. */
  public Upkeep(
      boolean orpCalibrationDue,
      boolean phCalibrationDue,
      Status orp,
      Status ph,
      boolean phDisagrees) {
    this(orpCalibrationDue, phCalibrationDue, orp, ph, phDisagrees, false, false);
  }

  public boolean calibrationDue() {
    return orpCalibrationDue || phCalibrationDue;
  }

  public boolean worn() {
    return orp != Status.GOOD || ph != Status.GOOD;
  }

  /** The best status that the ORP probe's value may have. */
  Status orpAtBest() {
    return orpCalibrationDue ? orp.orWorse(Status.MAINTENANCE_REQUIRED) : orp;
  }

  /** The best status that the pH electrode's value may have. */
  Status phAtBest() {
    return phCalibrationDue || phDisagrees || phUnexplained
        ? ph.orWorse(Status.MAINTENANCE_REQUIRED)
        : ph;
  }
}
