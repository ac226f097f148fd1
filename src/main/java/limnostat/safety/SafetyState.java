package limnostat.safety;

import java.util.EnumSet;
import java.util.Map;
import java.util.Set;
import limnostat.actuate.Output;

/**
 * What the interlocks remember.
 *
 * @param active causes active on the last scan, including latched ones
 * @param present causes whose condition held on the last scan
 * @param pendingS causes with a running on or off delay, with the time so far, s
 * @param sinceOnS time since each output was last on, s
 * @param blind what was fed while nothing trustworthy measured chlorine
 * @param watched what is remembered about the process and people's actions
 * @param run the health of the program itself
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
   * What happened before is unknown, so both outputs count as on until now: the separation time has
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
   * After a restart, latched causes stay. Their conditions count as present until a scan has
   * checked them. The separation time has to pass again.
   *
   * @param ended how the previous process ended
   */
  public SafetyState resumed(RunHealth.Owed ended) {
    EnumSet<Cause> there = EnumSet.noneOf(Cause.class);
    there.addAll(present);
    active.stream().filter(Cause::latching).forEach(there::add);
    return new SafetyState(
        active, there, pendingS, START.sinceOnS, blind, watched, run.resumed(ended));
  }

  /** A copy with another {@link ProcessWatch}. */
  public SafetyState with(ProcessWatch next) {
    return new SafetyState(active, present, pendingS, sinceOnS, blind, next, run);
  }

  /** A copy with another {@link RunHealth}. */
  public SafetyState withRun(RunHealth next) {
    return new SafetyState(active, present, pendingS, sinceOnS, blind, watched, next);
  }
}
