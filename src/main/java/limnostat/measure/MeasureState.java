package limnostat.measure;

import java.util.Optional;

/**
 * What the validation remembers between scans.
 *
 * @param flowS for how long flow has been unbroken, s; negative: there is none
 * @param phCheck check of the pH electrode against a person's tests
 * @param waterModel check of the thermometer against what the water can do
 * @param phModel the same for the pH electrode
 */
public record MeasureState(
    Probe.Memory orp,
    Probe.Memory ph,
    Probe.Memory water,
    double flowS,
    PhCheck phCheck,
    Envelope waterModel,
    Envelope phModel) {
  public static final MeasureState START =
      new MeasureState(
          Probe.Memory.BLANK, Probe.Memory.BLANK, Probe.Memory.BLANK, -1, PhCheck.START);

  /** The state without a model of the water. */
  public MeasureState(
      Probe.Memory orp, Probe.Memory ph, Probe.Memory water, double flowS, PhCheck phCheck) {
    this(orp, ph, water, flowS, phCheck, Envelope.START, Envelope.START);
  }

  /**
   * After an interruption values and flow start again. A failed probe must still be good for its
   * full recovery time, and the interruption does not count towards it, since nothing was observed.
   *
   * @param elapsedS proven duration of the interruption, s
   */
  public MeasureState interrupted(double elapsedS) {
    return new MeasureState(
        orp.forgetting(),
        ph.forgetting(),
        water.forgetting(),
        -1,
        phCheck.aged(elapsedS),
        waterModel.interrupted(),
        phModel.interrupted());
  }

  /**
   * The same while a person is working on the probes. The person takes care of them, so the models
   * have no doubts about them afterwards.
   */
  public MeasureState inHand(double elapsedS) {
    MeasureState s = interrupted(elapsedS);
    return new MeasureState(
        s.orp, s.ph, s.water, s.flowS, s.phCheck, waterModel.forgotten(), phModel.forgotten());
  }

  /** A person tested pH. If the electrode agrees, it was the water that moved. */
  public MeasureState phTested(double tested) {
    PhCheck check = phCheck.tested(tested);
    return new MeasureState(
        orp, ph, water, flowS, check, waterModel, check.agreed(0) ? phModel.forgotten() : phModel);
  }

  /**
   * A person added something that moves pH.
   *
   * @param up how far it may rise, at least 0
   * @param down how far it may fall
   */
  public MeasureState phAdded(double up, double down) {
    return new MeasureState(
        orp, ph, water, flowS, phCheck, waterModel, phModel.explained(up, down));
  }

  /** The fault of the ORP probe, if it has failed. */
  public Optional<Fault> orpFault() {
    return orp.standing();
  }

  /** The fault of the pH electrode, if it has failed. */
  public Optional<Fault> phFault() {
    return ph.standing();
  }

  /** The fault of the thermometer, if it has failed. */
  public Optional<Fault> waterFault() {
    return water.standing();
  }
}
