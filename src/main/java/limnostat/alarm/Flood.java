package limnostat.alarm;

import java.util.ArrayList;
import java.util.List;

/**
 * More alarms than a person can take in. By ISA-18.2 and EEMUA 191 (both from memory) a flood
 * begins above 10 annunciations in 10 minutes and ends below 5 in 10 minutes.
 *
 * @param on whether there is one
 * @param agesS age of the last annunciations, youngest first, s; those beyond the limit are not
 *     kept
 */
public record Flood(boolean on, List<Double> agesS) {
  public static final Flood NONE = new Flood(false, List.of());

  /** Most annunciations in the window that are not a flood. */
  public static final int MOST = 10;

  private static final int OVER_BELOW = 5;
  private static final double WINDOW_S = 600;

  public Flood {
    agesS = List.copyOf(agesS);
  }

  Flood step(int annunciated, double elapsedS) {
    if (annunciated == 0 && agesS.isEmpty()) {
      return on ? NONE : this;
    }
    List<Double> ages = new ArrayList<>();
    for (int i = 0; i < annunciated && ages.size() <= MOST; i++) {
      ages.add(0.0);
    }
    for (double ageS : agesS) {
      if (ageS + elapsedS < WINDOW_S && ages.size() <= MOST) {
        ages.add(ageS + elapsedS);
      }
    }
    return new Flood(on ? ages.size() >= OVER_BELOW : ages.size() > MOST, ages);
  }
}
