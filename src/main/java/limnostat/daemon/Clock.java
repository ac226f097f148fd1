package limnostat.daemon;

import java.nio.file.Files;
import java.nio.file.Path;

/** The clocks that the impure shell uses. Limits and proving times use only the monotonic one. */
public interface Clock {
  /** Time that never jumps, s; it starts at boot, or at the start of a simulation. */
  double monotonicS();

  /** Wall clock, Unix s; it may jump. */
  double unixTimeS();

  /** Whether the wall clock is trusted. */
  boolean trusted();

  /** The machine's clocks. */
  final class OfSystem implements Clock {
    /** A board without a clock battery starts long before this: 2026-01-01. */
    private static final double RELEASED_UNIX_S = 1_767_225_600;

    private static final Path TIME_SERVICE = Path.of("/run/systemd/timesync");

    private double lookedAtS = Double.NEGATIVE_INFINITY;
    private boolean synchronised;

    @Override
    public double monotonicS() {
      return System.nanoTime() / 1e9;
    }

    @Override
    public double unixTimeS() {
      return System.currentTimeMillis() / 1e3;
    }

    /**
     * Trusted if later than this program's release and, where a time service runs, set by it.
     * Checked every 10 s.
     */
    @Override
    public boolean trusted() {
      double nowS = monotonicS();
      if (nowS - lookedAtS > 10) {
        lookedAtS = nowS;
        synchronised =
            !Files.isDirectory(TIME_SERVICE) || Files.exists(TIME_SERVICE.resolve("synchronized"));
      }
      return synchronised && unixTimeS() >= RELEASED_UNIX_S;
    }
  }

  /** A clock that moves only by {@link #advance}. */
  final class Simulated implements Clock {
    private final double startUnixS;
    private double monotonicS;

    public Simulated(double startUnixS) {
      this.startUnixS = startUnixS;
    }

    public void advance(double seconds) {
      monotonicS += seconds;
    }

    @Override
    public double monotonicS() {
      return monotonicS;
    }

    @Override
    public double unixTimeS() {
      return startUnixS + monotonicS;
    }

    @Override
    public boolean trusted() {
      return true;
    }
  }
}
