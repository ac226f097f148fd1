package limnostat.scan;

import limnostat.actuate.Output;

/**
 * S5: outputs are off on the first scan, on the first after a gap and on the first of a process.
 */
final class StartRule implements Rule {
  @Override
  public void check(Seen seen) {
    for (Output output : Output.values()) {
      Rule.require(
          !(seen.interrupted() && seen.on(output)),
          () -> "S5: " + output + " on at start " + seen.start());
    }
  }
}
