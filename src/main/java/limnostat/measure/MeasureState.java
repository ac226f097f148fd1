package limnostat.measure;

import java.util.Optional;

/**
 * What the validation remembers between scans.
 *
 * @param flowS for how long flow has been unbroken, s; negative: there is none
 * @param phCheck the pH electrode against a person's tests
 */
public record MeasureState(
    Probe.Memory orp, Probe.Memory ph, Probe.Memory water, double flowS, PhCheck phCheck) {
  public static final MeasureState START =
      new MeasureState(
          Probe.Memory.BLANK, Probe.Memory.BLANK, Probe.Memory.BLANK, -1, PhCheck.START);

  /**
   * After an interruption: values and flow begin anew. A probe that had failed has to be good for
   * its time all the same, of which none has passed, as nobody looked.
   *
   * @param elapsedS how long it took, as far as it is proved, s
   */
  public MeasureState interrupted(double elapsedS) {
    return new MeasureState(
        orp.forgetting(), ph.forgetting(), water.forgetting(), -1, phCheck.aged(elapsedS));
  }

  /** A person tested pH. */
  public MeasureState phTested(double tested) {
    return new MeasureState(orp, ph, water, flowS, phCheck.tested(tested));
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
