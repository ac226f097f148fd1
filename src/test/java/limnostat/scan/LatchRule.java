package limnostat.scan;

import java.util.EnumSet;
import java.util.Set;
import limnostat.actuate.Output;
import limnostat.safety.Cause;

/**
 * S7: what is latched stays until an accepted reset, holds chlorine all the while, and no reset is
 * accepted while the cause is there, or nobody can tell.
 */
final class LatchRule implements Rule {
  private final Set<Cause> latched = EnumSet.noneOf(Cause.class);
  private final CellWatch cell = new CellWatch();

  @Override
  public void check(Seen seen) {
    if (seen.start() == Seen.Start.FIRST || seen.start() == Seen.Start.FORGOTTEN) {
      latched.clear();
      cell.forget();
    }
    for (ScanEvent event : seen.out().events()) {
      if (event instanceof ScanEvent.Accepted accepted
          && accepted.request().command() instanceof Command.Reset reset) {
        Cause cause = Cause.ofId(reset.interlock()).orElseThrow();
        if (cause == Cause.RESTART_LOOP) {
          continue; // no latch: it ends by itself too
        }
        Rule.require(latched.remove(cause), () -> "S7: reset of what is not latched, " + cause);
        Rule.require(
            !(cause == Cause.CELL_CURRENT_UNEXPECTED && cell.unasked())
                && !(cause == Cause.CELL_OVER_CURRENT && cell.over()),
            () -> "S7: reset accepted with the cause present, " + cause);
      }
    }
    Set<Cause> active = seen.out().permission().active();
    Rule.require(
        active.containsAll(latched), () -> "S7: latched " + latched + ", active " + active);
    cell.look(seen);
    active.stream().filter(Cause::latching).forEach(latched::add);
    for (Cause cause : latched) {
      boolean all = cause == Cause.CELL_CURRENT_UNEXPECTED;
      Rule.require(
          !seen.on(Output.CHLORINE) && !(all && seen.on(Output.ACID)),
          () -> "S7: " + seen.out().outputs() + " under " + cause);
    }
  }
}
