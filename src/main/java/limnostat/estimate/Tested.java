package limnostat.estimate;

/**
 * What a person can test in the water, listed once: the wire's fields, the options of {@code test},
 * what is plausible and what dashboards can enter all follow from here. The ranges are what test
 * kits read in pools (engineering judgement, wide).
 */
public enum Tested {
  FREE_CHLORINE("free_chlorine", "free chlorine", true, 0, 50, 0.05),
  COMBINED_CHLORINE("combined_chlorine", "combined chlorine", true, 0, 50, 0.05),
  TOTAL_CHLORINE("total_chlorine", "total chlorine", true, 0, 100, 0.05),
  PH("ph", "pH", false, 5, 10, 0.05),
  TOTAL_ALKALINITY("total_alkalinity", "total alkalinity", true, 0, 1000, 1),
  CYANURIC_ACID("cyanuric_acid", "stabiliser", true, 0, 500, 1),
  CALCIUM_HARDNESS("calcium_hardness", "calcium hardness", true, 0, 3000, 1),
  SALT("salt", "salt", true, 0, 50_000, 10);

  private final String id;
  private final String words;
  private final boolean concentration;
  private final double min;
  private final double max;
  private final double step;

  Tested(String id, String words, boolean concentration, double min, double max, double step) {
    this.id = id;
    this.words = words;
    this.concentration = concentration;
    this.min = min;
    this.max = max;
    this.step = step;
  }

  /** Its name without a unit. */
  public String id() {
    return id;
  }

  /** The field of the wire, with its unit. */
  public String key() {
    return concentration ? id + "_mg_l" : id;
  }

  public String words() {
    return words;
  }

  /** Empty for pH. */
  public String unit() {
    return concentration ? "mg/L" : "";
  }

  public double min() {
    return min;
  }

  public double max() {
    return max;
  }

  /** How finely a person enters it. */
  public double step() {
    return step;
  }
}
