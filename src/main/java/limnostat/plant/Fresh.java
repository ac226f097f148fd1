package limnostat.plant;

/** A person backwashes the filter every few days and refills with fresh water. */
public final class Fresh {
  private static final double DAY_S = 86_400;

  private final Settings settings;
  private double nextUnixS = Double.NEGATIVE_INFINITY;

  /**
   * @param everyDays interval, days; 0: never
   * @param share share of the pool's water that is replaced
   */
  public record Settings(double everyDays, double share) {
    static final Settings NONE = new Settings(0, 0);
  }

  Fresh(Settings settings) {
    this.settings = settings;
  }

  /** Returns the chlorine that leaves with the water, g. */
  double replace(double unixTimeS, Water[] open) {
    if (settings.everyDays == 0) {
      return 0;
    }
    if (nextUnixS == Double.NEGATIVE_INFINITY) {
      nextUnixS = unixTimeS + settings.everyDays * DAY_S;
    }
    if (unixTimeS < nextUnixS) {
      return 0;
    }
    nextUnixS += settings.everyDays * DAY_S;
    double outG = 0;
    for (Water water : open) {
      outG += water.freeChlorineMgL * settings.share * water.volumeM3;
      water.dilute(1 - settings.share);
    }
    return outG;
  }
}
