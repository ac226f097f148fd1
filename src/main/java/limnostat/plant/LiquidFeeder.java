package limnostat.plant;

import java.util.Map;
import limnostat.measure.Role;
import limnostat.measure.Signal;

/** A metering pump with a tank of hypochlorite that loses strength. */
final class LiquidFeeder implements Doser {
  /** Caustic in addition to the hypochlorite, mol per mol of chlorine [judgement]. */
  private static final double CAUSTIC_RATIO = 0.08;

  private static final double LOW_SHARE = 0.1;

  private final DoserSettings.Liquid settings;
  private double leftL;
  private double strengthShare = 1;

  LiquidFeeder(DoserSettings.Liquid settings) {
    this.settings = settings;
    this.leftL = settings.tankL();
  }

  @Override
  public Fed feed(double dtS, double command, boolean flows, Water line) {
    // The tank is beside the pool and about as warm; decay doubles every 5 °C [judgement].
    double warmth = StrictMath.exp(StrictMath.log(2) * (line.temperatureC - 25) / 5);
    strengthShare *= StrictMath.exp(-settings.decayPerDay() * warmth * dtS / 86_400);
    double freshGPerL = 10 * settings.tradePercent();
    double wantedL =
        command * settings.labelGH() / freshGPerL * settings.outputFactor() * dtS / 3600;
    double givenL = StrictMath.min(leftL, wantedL);
    leftL -= givenL;
    double chlorineG = givenL * freshGPerL * strengthShare;
    // Each NaOCl brings one base and one NaCl from its manufacture; lost strength becomes salt too.
    return new Fed(
        chlorineG,
        0,
        0.824 * givenL * freshGPerL * (2 - strengthShare),
        (chlorineG + CAUSTIC_RATIO * givenL * freshGPerL) / Cyanurate.CHLORINE_MG_MMOL);
  }

  /** Fresh liquid poured in by a person. */
  static Fed fresh(double chlorineG) {
    return new Fed(
        chlorineG,
        0,
        0.824 * chlorineG,
        (1 + CAUSTIC_RATIO) * chlorineG / Cyanurate.CHLORINE_MG_MMOL);
  }

  @Override
  public Map<Role, Signal> signals() {
    return Map.of(Role.TANK_LOW, new Signal.Contact(leftL <= LOW_SHARE * settings.tankL()));
  }

  @Override
  public double strippingFraction() {
    return 0;
  }
}
