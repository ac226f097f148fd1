package limnostat.plant;

import java.util.Map;
import limnostat.measure.Role;
import limnostat.measure.Signal;

/**
 * An erosion feeder with trichlor: it feeds only with flow, and adds stabiliser along with
 * chlorine.
 */
final class Tablets implements Doser {
  private final DoserSettings.TrichlorTablets settings;
  private double leftG;

  Tablets(DoserSettings.TrichlorTablets settings) {
    this.settings = settings;
    this.leftG = settings.stockG();
  }

  @Override
  public Fed feed(double dtS, double command, boolean flows, Water line) {
    if (!flows) {
      return Fed.NOTHING;
    }
    double wantedG = command * settings.labelGH() * settings.outputFactor() * dtS / 3600;
    double chlorineG = StrictMath.min(leftG, wantedG);
    leftG -= chlorineG;
    // Cl3Cy + 3 H2O = H3Cy + 3 HOCl: 0.607 g of stabiliser per g of chlorine [computed]; its acid
    // appears when the chlorine is consumed.
    return new Fed(chlorineG, 0.607 * chlorineG, 0, 0);
  }

  @Override
  public Map<Role, Signal> signals() {
    return Map.of();
  }

  @Override
  public double strippingFraction() {
    return 0;
  }
}
