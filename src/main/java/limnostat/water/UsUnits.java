package limnostat.water;

/** Exact US units: the gallon of 231 cubic inches and the pound of 1959. */
public final class UsUnits {
  public static final double L_PER_GAL = 3.785411784;
  public static final double ML_PER_FL_OZ = 29.5735295625;
  public static final double G_PER_LB = 453.59237;
  public static final double G_PER_OZ = 28.349523125;

  /** The trade's reference volume of 10,000 gal, m³. */
  public static final double M3_PER_10000_GAL = 10 * L_PER_GAL;

  private UsUnits() {}

  public static double fahrenheit(double celsius) {
    return celsius * 9 / 5 + 32;
  }

  /** Converts m³ to gallons. */
  public static double gallons(double m3) {
    return m3 * 1000 / L_PER_GAL;
  }
}
