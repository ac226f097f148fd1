package limnostat.measure;

/**
 * What the probes need of a person, though their signals are sound; NE 107 calls most of it
 * maintenance required.
 *
 * @param orpCalibrationDue whether the ORP probe's calibration is older than it may be
 * @param phCalibrationDue the same of the pH electrode
 * @param orp what its offset says of the ORP probe
 * @param ph what slope and offset say of the pH electrode
 * @param phDisagrees whether a person's tests contradict the pH electrode
 * @param waterDisagrees whether the thermometer has moved as the water cannot
 * @param phUnexplained whether pH has moved by more than what was fed and the air explain
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

  /** Where the model of the water has nothing against the probes. */
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
