package limnostat.scan;

import java.util.EnumMap;
import java.util.Map;
import limnostat.actuate.Output;

/** S2: chlorine and acid are apart in time; a new process waits the separation out first. */
final class SeparationRule implements Rule {
  private final Map<Output, Double> onUntilS = new EnumMap<>(Output.class);
  private double startedS;

  @Override
  public void check(Seen seen) {
    if (seen.start().newProcess()) {
      startedS = seen.atS();
    }
    for (Output output : Output.values()) {
      if (seen.wasOn(output)) {
        onUntilS.put(output, seen.drivenUntilS());
      }
    }
    if (!seen.settings().acid().fitted()) {
      Rule.require(!seen.on(Output.ACID), () -> "S2: acid on where none is fitted");
      return;
    }
    Rule.require(
        !(seen.on(Output.CHLORINE) && seen.on(Output.ACID)), () -> "S2: chlorine and acid on");
    apart(seen, Output.CHLORINE, Output.ACID);
    apart(seen, Output.ACID, Output.CHLORINE);
  }

  private void apart(Seen seen, Output on, Output other) {
    double sinceS =
        seen.atS() - Math.max(startedS, onUntilS.getOrDefault(other, Double.NEGATIVE_INFINITY));
    Rule.require(
        !seen.on(on) || sinceS >= seen.settings().limits().separationS() - ROUNDING,
        () -> "S2: " + on + " on " + sinceS + " s after " + other + " or the start");
  }
}
