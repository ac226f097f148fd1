package limnostat.daemon;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import limnostat.ledger.Moment;

/**
 * The clock of this process and the boot of the machine that it belongs to. The boot shows whether
 * monotonic times of two processes can be compared.
 *
 * @param id the kernel's id of this boot; empty if there is none, and then nothing is comparable
 * @param uptimeS time since boot when the clock was read, s
 */
public record BootClock(String id, double uptimeS, Clock clock) {
  private static final Path ID = Path.of("/proc/sys/kernel/random/boot_id");
  private static final Path UPTIME = Path.of("/proc/uptime");

  public static BootClock ofSystem() {
    return ofSystem(new Clock.OfSystem());
  }

  static BootClock ofSystem(Clock clock) {
    try {
      String uptime = Files.readString(UPTIME);
      return new BootClock(
          Files.readString(ID).strip(), Double.parseDouble(uptime.split(" ", 2)[0]), clock);
    } catch (IOException | NumberFormatException e) {
      // Not Linux, or no /proc: outages cannot be proved and count as zero, which is the safe side.
      return new BootClock("", 0, clock);
    }
  }

  /**
   * How long the program was stopped, as far as this can be proved, s: within the same boot by the
   * monotonic clock, otherwise at least the time since this boot. The wall clock proves nothing.
   */
  double outageS(Moment saved) {
    if (id.isEmpty() || saved.bootId().isEmpty()) {
      return 0; // it may be this same boot
    }
    return saved.bootId().equals(id)
        ? Math.max(0, Math.min(uptimeS, clock.monotonicS() - saved.monotonicS()))
        : uptimeS;
  }

  public Moment moment() {
    return new Moment(clock.monotonicS(), clock.unixTimeS(), clock.trusted(), id);
  }
}
