package limnostat.scan;

import limnostat.actuate.Output;
import limnostat.measure.Role;
import limnostat.measure.Signal;

/** What the raw current of a fitted cell says beside what was commanded; nothing, if none is. */
final class CellWatch {
  /** As in the matrix. */
  private static final double CURRENT_A = 0.3;

  private double unaskedS = -1;
  private double missingS = -1;
  private double overS = -1;
  private boolean unasked;
  private boolean over;

  /** For how long there has been current that nobody asked for, s; negative: there is none. */
  double unaskedS() {
    return unaskedS;
  }

  /** For how long in all it was asked for since there was any, s; negative: that is not so. */
  double missingS() {
    return missingS;
  }

  /** For how long it has been above the installer's limit, s; negative: it is not. */
  double overS() {
    return overS;
  }

  /** Whether current was unasked when last read. */
  boolean unasked() {
    return unasked;
  }

  /** The same of current above the installer's limit. */
  boolean over() {
    return over;
  }

  void forget() {
    unasked = false;
    over = false;
  }

  void look(Seen seen) {
    if (!seen.settings().measure().fitted().contains(Role.CELL_A)) {
      return;
    }
    Signal signal = seen.in().signals().of(Role.CELL_A);
    boolean read = signal instanceof Signal.Analog a && Double.isFinite(a.value());
    double cellA = read ? ((Signal.Analog) signal).value() : 0;
    boolean commanded =
        !seen.start().newProcess() && seen.before().of(Output.CHLORINE).modulator().on();
    double mostA = seen.settings().limits().process().cellMaxA().orElse(Double.POSITIVE_INFINITY);
    if (read) {
      unasked = cellA > CURRENT_A && !commanded;
      over = cellA > mostA;
    }
    unaskedS = lasting(unaskedS, read && unasked, seen);
    if ((read && cellA > CURRENT_A) || seen.start().newProcess()) {
      missingS = -1;
    } else if (read && commanded) {
      missingS = lasting(missingS, true, seen);
    }
    overS = lasting(overS, read && over, seen);
  }

  /** Nobody looked during an interruption, so it does not count. */
  private static double lasting(double beforeS, boolean holds, Seen seen) {
    double sawS = seen.interrupted() ? 0 : seen.in().elapsedS();
    return !holds ? -1 : beforeS >= 0 && !seen.start().newProcess() ? beforeS + sawS : 0;
  }
}
