package limnostat.water.advice;

import limnostat.water.Electrolysis;

/** The range that a quantity should stay in, with its source. */
public record Limit(String quantity, double min, double max, String unit, String source) {
  static final Limit FREE_CHLORINE =
      new Limit(
          "free chlorine",
          1,
          4,
          "mg/L",
          "minimum without stabiliser 22 CCR 65529 (California); bathing limit of product labels,"
              + " from memory");
  static final Limit FREE_CHLORINE_STABILISED =
      new Limit(
          "free chlorine",
          2,
          4,
          "mg/L",
          "minimum with stabiliser 22 CCR 65529 (California); bathing limit of product labels,"
              + " from memory");
  static final Limit COMBINED_CHLORINE =
      new Limit("combined chlorine", 0, 0.5, "mg/L", "Montana; Quebec Q-2 r.39, indoor");
  static final Limit PH = new Limit("pH", 7.2, 7.8, "", "Victoria, Montana, Quebec");
  static final Limit TOTAL_ALKALINITY =
      new Limit("total alkalinity", 60, 180, "mg/L", "ANSI/APSP/ICC-11 2019");
  static final Limit CALCIUM_HARDNESS =
      new Limit("calcium hardness", 150, 1000, "mg/L", "ANSI/APSP/ICC-11 2019");
  static final Limit CYANURIC_ACID =
      new Limit(
          "cyanuric acid", 0, 100, "mg/L", "Montana; Quebec 60; New South Wales 50 (secondary)");
  static final Limit CYANURIC_ACID_INDOOR =
      new Limit("cyanuric acid", 0, 0, "mg/L", "none indoors: Quebec");
  static final Limit SALT_OF_CELL =
      new Limit(
          "salt",
          Electrolysis.SALT_MG_L.min(),
          Electrolysis.SALT_MG_L.max(),
          "mg/L",
          "range of cells, secondary source");
  static final Limit TEMPERATURE =
      new Limit("water temperature", 0, 38, "degC", "New South Wales; spas 40 Montana");

  boolean holds(double value) {
    return value >= min && value <= max;
  }

  /** A value outside its range. */
  public record Broken(Limit limit, double value) {
    public boolean high() {
      return value > limit.max();
    }
  }
}
