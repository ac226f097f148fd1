package limnostat.safety;

import java.util.EnumSet;
import java.util.Map;
import java.util.Set;
import limnostat.actuate.Output;

/**
 * What the interlocks remember.
 *
 * @param active causes that count on the last scan, latched ones included
 * @param present causes whose condition held on the last scan
 * @param pendingS causes whose delay, on or off, runs, with the time so far, s
 * @param sinceOnS time since each output was last on, s
 * @param blind what was fed while nothing trustworthy measured chlorine
 * @param watched what is remembered of process and people
 * @param run how the program itself has fared
 */
public record SafetyState(
    Set<Cause> active,
    Set<Cause> present,
    Map<Cause, Double> pendingS,
    Map<Output, Double> sinceOnS,
    BlindFeed blind,
    ProcessWatch watched,
    RunHealth run) {

  /**
   * What went before is not known, so both outputs count as on until now: the separation time has
   * to pass.
   */
  public static final SafetyState START =
      new SafetyState(
          Set.of(),
          Set.of(),
          Map.of(),
          Map.of(Output.CHLORINE, 0.0, Output.ACID, 0.0),
          BlindFeed.UNCONFIRMED,
          ProcessWatch.START,
          RunHealth.START);

  /**
   * After a restart: what is latched stays, and counts as still there until a scan has looked; the
   * separation time has to pass again.
   *
   * @param ended how the process before ended
   */
  public SafetyState resumed(RunHealth.Owed ended) {
    EnumSet<Cause> there = EnumSet.noneOf(Cause.class);
    there.addAll(present);
    active.stream().filter(Cause::latching).forEach(there::add);
    return new SafetyState(
        active, there, pendingS, START.sinceOnS, blind, watched, run.resumed(ended));
  }

  /** The same with something else known of process and people. */
  public SafetyState with(ProcessWatch next) {
    return new SafetyState(active, present, pendingS, sinceOnS, blind, next, run);
  }

  /** The same with something else known of the program's own runs. */
  public SafetyState withRun(RunHealth next) {
    return new SafetyState(active, present, pendingS, sinceOnS, blind, watched, next);
  }
}
