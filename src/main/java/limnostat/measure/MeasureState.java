package limnostat.measure;

import java.util.Optional;

/**
 * What the validation remembers between scans.
 *
 * @param flowS for how long flow has been unbroken, s; negative: there is none
 * @param phCheck the pH electrode against a person's tests
 * @param waterModel the thermometer against what the water can do
 * @param phModel the pH electrode likewise
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

  /** Of which no model knows anything. */
  public MeasureState(
      Probe.Memory orp, Probe.Memory ph, Probe.Memory water, double flowS, PhCheck phCheck) {
    this(orp, ph, water, flowS, phCheck, Envelope.START, Envelope.START);
  }

  /**
   * After an interruption: values and flow begin anew. A probe that had failed has to be good for
   * its time all the same, of which none has passed, as nobody looked.
   *
   * @param elapsedS how long it took, as far as it is proved, s
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
   * The same while a person has the probes in hand, who looks after them: no model has anything
   * against them afterwards.
   */
  public MeasureState inHand(double elapsedS) {
    MeasureState s = interrupted(elapsedS);
    return new MeasureState(
        s.orp, s.ph, s.water, s.flowS, s.phCheck, waterModel.forgotten(), phModel.forgotten());
  }

  /** A person tested pH: where the electrode agrees, what moved was the water. */
  public MeasureState phTested(double tested) {
    PhCheck check = phCheck.tested(tested);
    return new MeasureState(
        orp, ph, water, flowS, check, waterModel, check.agreed(0) ? phModel.forgotten() : phModel);
  }

  /**
   * A person put in what moves pH.
   *
   * @param up by how much it may rise, at least 0
   * @param down by how much it may fall
   */
  public MeasureState phAdded(double up, double down) {
    return new MeasureState(
        orp, ph, water, flowS, phCheck, waterModel, phModel.explained(up, down));
  }

  /** What the ORP probe has failed by, where it has. */
  public Optional<Fault> orpFault() {
    return orp.standing();
  }

  /** What the pH electrode has failed by, where it has. */
  public Optional<Fault> phFault() {
    return ph.standing();
  }

  /** What the thermometer has failed by, where it has. */
  public Optional<Fault> waterFault() {
    return water.standing();
  }
}
