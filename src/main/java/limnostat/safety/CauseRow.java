package limnostat.safety;

import java.util.Arrays;
import limnostat.actuate.Output;

/**
 * A row of the matrix as {@link Cause} declares it. By default a row has no effect and no delay,
 * does not latch and raises no alarm.
 *
 * @param delayS how long the condition must last before the cause becomes active, s
 * @param delayOffS how long the condition must be gone before the cause ends, s
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

  /** Inhibits these outputs: they are off. */
  CauseRow inhibits(Output... outputs) {
    return with(Effect.INHIBIT, outputs);
  }

  /** Limits these outputs to the learned demand. */
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

  /** Only a manual reset releases it. */
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

  /** Likely reasons and the remedy, for the person who reads the alarm. */
  CauseRow advice(String text) {
    return new CauseRow(
        id, title, onChlorine, onAcid, delayS, delayOffS, latching, annunciation, text);
  }
}
