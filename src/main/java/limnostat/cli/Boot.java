package limnostat.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import limnostat.ledger.Moment;

/**
 * Which boot of the machine this is, so that monotonic times of two processes can be compared, or
 * cannot.
 *
 * @param id the kernel's id of this boot; empty where there is none, then nothing is comparable
 * @param uptimeS time since the boot when it was looked at, s
 */
record Boot(String id, double uptimeS) {
  private static final Path ID = Path.of("/proc/sys/kernel/random/boot_id");
  private static final Path UPTIME = Path.of("/proc/uptime");

  static Boot ofSystem() {
    try {
      String uptime = Files.readString(UPTIME);
      return new Boot(Files.readString(ID).strip(), Double.parseDouble(uptime.split(" ", 2)[0]));
    } catch (IOException | NumberFormatException e) {
      // Not Linux, or no /proc: outages cannot be proved and count as none, which is the safe side.
      return new Boot("", 0);
    }
  }

  /**
   * How long the program was away, as far as it is proved, s: within a boot by the monotonic clock,
   * else at least since this boot. The wall clock proves nothing.
   */
  double outageS(Moment saved, double monotonicS) {
    if (id.isEmpty() || saved.bootId().isEmpty()) {
      return 0; // it may have been this very boot
    }
    return saved.bootId().equals(id)
        ? Math.max(0, Math.min(uptimeS, monotonicS - saved.monotonicS()))
        : uptimeS;
  }

  Moment moment(Clock clock) {
    return new Moment(clock.monotonicS(), clock.unixTimeS(), clock.trusted(), id);
  }
}
