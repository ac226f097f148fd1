package limnostat.season;

import java.util.List;
import java.util.Optional;
import limnostat.plant.Pool;

/**
 * Chlorine that people pour without telling anybody.
 *
 * @param pours in chronological order
 * @param belowMgL a test below this makes them pour, mg/L; 0: never
 * @param answerMgL what they then pour, as the rise in the pool, mg/L
 */
record Hands(List<Pour> pours, double belowMgL, double answerMgL) {
  static final Hands STILL = new Hands(List.of(), 0, 0);

  /** One such addition. */
  record Pour(double unixTimeS, double riseMgL) {}

  Hands {
    pours = List.copyOf(pours);
  }

  /** Makes the additions that fall between two times. */
  void act(
      Pool pool, double volumeM3, double fromUnixS, double untilUnixS, Optional<KitTest> test) {
    for (Pour pour : pours) {
      if (pour.unixTimeS >= fromUnixS && pour.unixTimeS < untilUnixS) {
        pool.pourChlorine(pour.riseMgL * volumeM3);
      }
    }
    if (test.isPresent() && test.get().freeChlorineMgL() < belowMgL) {
      pool.pourChlorine(answerMgL * volumeM3);
    }
  }
}
