package limnostat.safety;

import java.util.Arrays;
import limnostat.actuate.Output;

/**
 * A row of the matrix as {@link Cause} declares it: what is not said has no effect, no delay, does
 * not latch and is no alarm.
 *
 * @param delayS how long the condition must last before it counts, s
 * @param delayOffS how long it must be gone before it counts no more, s
 */
record CauseRow(
    String id,
    String title,
    Effect onChlorine,
    Effect onAcid,
    double delayS,
    double delayOffS,
    boolean latching,
    Annunciation annunciation,
    String advice) {

  static CauseRow row(String id, String title) {
    return new CauseRow(
        id, title, Effect.NONE, Effect.NONE, 0, 0, false, Annunciation.of(Priority.NONE), "");
  }

  /** These outputs are off. */
  CauseRow inhibits(Output... outputs) {
    return with(Effect.INHIBIT, outputs);
  }

  /** These outputs give no more than the learned demand. */
  CauseRow limits(Output... outputs) {
    return with(Effect.LIMIT, outputs);
  }

  private CauseRow with(Effect effect, Output... outputs) {
    boolean chlorine = Arrays.asList(outputs).contains(Output.CHLORINE);
    boolean acid = Arrays.asList(outputs).contains(Output.ACID);
    return new CauseRow(
        id,
        title,
        chlorine ? effect : onChlorine,
        acid ? effect : onAcid,
        delayS,
        delayOffS,
        latching,
        annunciation,
        advice);
  }

  CauseRow after(double seconds) {
    return new CauseRow(
        id, title, onChlorine, onAcid, seconds, delayOffS, latching, annunciation, advice);
  }

  CauseRow releasedAfter(double seconds) {
    return new CauseRow(
        id, title, onChlorine, onAcid, delayS, seconds, latching, annunciation, advice);
  }

  /** Only a person's reset releases it. */
  CauseRow latches() {
    return new CauseRow(
        id, title, onChlorine, onAcid, delayS, delayOffS, true, annunciation, advice);
  }

  /** An alarm with the usual delays and no deadband. */
  CauseRow priority(Priority priority) {
    return announced(Annunciation.of(priority));
  }

  CauseRow announced(Annunciation how) {
    return new CauseRow(id, title, onChlorine, onAcid, delayS, delayOffS, latching, how, advice);
  }

  /** Likely reasons and the mend, for the person who reads the alarm. */
  CauseRow advice(String text) {
    return new CauseRow(
        id, title, onChlorine, onAcid, delayS, delayOffS, latching, annunciation, text);
  }
}
