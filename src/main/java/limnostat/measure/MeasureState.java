package limnostat.measure;

/**
 * What the validation remembers between scans.
 *
 * @param flowS for how long flow has been unbroken, s; negative: there is none
 */
public record MeasureState(Probe.Memory orp, Probe.Memory ph, Probe.Memory water, double flowS) {
  public static final MeasureState START =
      new MeasureState(Probe.Memory.BLANK, Probe.Memory.BLANK, Probe.Memory.BLANK, -1);
}
