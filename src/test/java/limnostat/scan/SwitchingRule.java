package limnostat.scan;

import java.util.EnumMap;
import java.util.Map;
import limnostat.actuate.Output;
import limnostat.actuate.OutputSettings;
import limnostat.actuate.OutputSettings.Drive;

/** S6: least on and off times, longest run and rest, by what was driven; restarts included. */
final class SwitchingRule implements Rule {
  private static final class Switched {
    private boolean on;
    private double sinceS = Double.NEGATIVE_INFINITY;
    private double restS;
  }

  private final Map<Output, Switched> outputs = new EnumMap<>(Output.class);

  @Override
  public void check(Seen seen) {
    for (Output output : Output.values()) {
      check(seen, output, outputs.computeIfAbsent(output, o -> new Switched()));
    }
  }

  private static void check(Seen seen, Output output, Switched s) {
    OutputSettings settings = seen.settings().of(output).output();
    boolean relay = settings.drive() == Drive.RELAY;
    if (relay) {
      double duty = seen.out().outputs().of(output);
      Rule.require(duty == 0 || duty == 1, () -> "S6: relay of " + output + " at " + duty);
    }
    if (s.on && seen.drivenUntilS() < seen.atS()) { // switched off outside a scan
      s.on = false;
      s.sinceS = seen.drivenUntilS();
      s.restS = settings.minOffS();
    }
    double forS = seen.atS() - s.sinceS;
    boolean on = seen.on(output);
    if (on && s.on) {
      Rule.require(
          forS < settings.longestRunS() + ROUNDING,
          () -> "S6: " + output + " on for " + forS + " s and not resting");
    }
    if (on == s.on) {
      return;
    }
    if (on) {
      double leastS = s.restS;
      Rule.require(
          forS >= leastS - ROUNDING,
          () -> "S6: " + output + " off for " + forS + " s only, least " + leastS);
    } else {
      boolean ranOut = forS >= settings.longestRunS() - ROUNDING;
      Rule.require(
          !relay
              || ranOut
              || seen.out().permission().held(output)
              || forS >= settings.minOnS() - ROUNDING,
          () -> "S6: " + output + " on for " + forS + " s only");
      s.restS =
          Math.max(
              settings.minOffS(), forS >= settings.longestRunS() + ROUNDING ? settings.restS() : 0);
    }
    s.on = on;
    s.sinceS = seen.atS();
  }
}
