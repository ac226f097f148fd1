package limnostat.plant;

/** A metering pump with a tank of hydrochloric acid. */
public final class AcidFeeder {
  private static final double LOW_SHARE = 0.1;

  private final Settings settings;
  private double leftMl;
  private double givenMl;

  /**
   * @param rateMlH acid at full duty, mL/h
   * @param strengthMolL strength, mol/L; 31.45 % is 10.01 [memory]
   * @param tankMl volume of the tank, full at the start, mL
   */
  public record Settings(double rateMlH, double strengthMolL, double tankMl) {}

  AcidFeeder(Settings settings) {
    this.settings = settings;
    this.leftMl = settings.tankMl;
  }

  Fed feed(double dtS, double command) {
    double ml = StrictMath.min(leftMl, command * settings.rateMlH * dtS / 3600);
    leftMl -= ml;
    givenMl += ml;
    double acidMol = ml / 1000 * settings.strengthMolL;
    return new Fed(0, 0, 58.443 * acidMol, -acidMol);
  }

  boolean tankLow() {
    return leftMl <= LOW_SHARE * settings.tankMl;
  }

  double givenMl() {
    return givenMl;
  }
}
