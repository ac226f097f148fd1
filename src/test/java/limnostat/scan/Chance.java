package limnostat.scan;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.Set;

/**
 * What a history is drawn from. Every scan draws anew from the seed and its own number, and whether
 * an event happens hangs on nothing but these and its name: so an event can be taken out of a
 * history and the others stay what they are, which is what shrinking needs.
 *
 * <p>Own code in the place of a library for properties: a history is a closed loop. What the cell
 * reads, what there is to reset and what the ledger has depend on what the program did. Such a
 * library shrinks a list of actions that was drawn before; to draw from within the actions needs as
 * much code as this, and its shrinking would move every later draw. This also runs on all cores and
 * keeps no database of failures beside the seeds.
 */
final class Chance extends Random {
  private static final long serialVersionUID = 1;

  /** Odd, near 2^64 over the golden ratio; with the mixing below it is SplitMix64. */
  private static final long GOLDEN = 0x9e3779b97f4a7c15L;

  /** Something out of the ordinary that happened on a scan. */
  record Event(int scan, String what, int nth) {
    @Override
    public String toString() {
      return "scan " + scan + ": " + what + (nth > 0 ? " (" + nth + ")" : "");
    }
  }

  private final transient List<Event> happened = new ArrayList<>();
  private final transient Optional<Set<Event>> only;
  private final long key;
  private long at;
  private int scan;
  private double eagerness = 1;

  /**
   * @param only all that may happen; empty: whatever the seed brings
   */
  Chance(long seed, Optional<Set<Event>> only) {
    super(0);
    key = mix(seed * GOLDEN);
    at = key;
    this.only = only;
  }

  /** How often events happen in this history, in their usual frequency. */
  void eager(double factor) {
    eagerness = factor;
  }

  void begin(int scanNumber) {
    scan = scanNumber;
    at = mix(key + scanNumber);
  }

  List<Event> happened() {
    return List.copyOf(happened);
  }

  boolean event(String what, double probability) {
    return event(what, 0, probability);
  }

  /**
   * @param nth counts events of one name on one scan
   */
  boolean event(String what, int nth, double probability) {
    long drawn = mix(key ^ mix(scan * GOLDEN + what.hashCode() + ((long) nth << 32)));
    if ((drawn >>> 11) * 0x1p-53 >= probability * eagerness) {
      return false;
    }
    Event event = new Event(scan, what, nth);
    if (only.isPresent() && !only.get().contains(event)) {
      return false;
    }
    happened.add(event);
    return true;
  }

  @Override
  protected int next(int bits) {
    at += GOLDEN;
    return (int) (mix(at) >>> (64 - bits));
  }

  /** The sum of twelve: near enough to normal for noise, and without memory. */
  @Override
  public synchronized double nextGaussian() {
    double sum = -6;
    for (int i = 0; i < 12; i++) {
      at += GOLDEN;
      sum += (mix(at) >>> 11) * 0x1p-53;
    }
    return sum;
  }

  private static long mix(long value) {
    long z = (value ^ (value >>> 30)) * 0xbf58476d1ce4e5b9L;
    z = (z ^ (z >>> 27)) * 0x94d049bb133111ebL;
    return z ^ (z >>> 31);
  }
}
