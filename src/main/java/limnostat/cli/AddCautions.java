package limnostat.cli;

import java.util.ArrayList;
import java.util.List;
import limnostat.estimate.Product;

/**
 * Hazards to people, printed with each addition that is entered. Common practice, no source, except
 * for the bathing limit (HardBounds and the labels behind it).
 */
final class AddCautions {
  private AddCautions() {}

  static List<String> of(Product product) {
    List<String> cautions = new ArrayList<>();
    if (!product.water() && product != Product.SALT) {
      cautions.add(
          "Never mix products, wet or dry, in a bucket, scoop, skimmer or feeder: chlorine and acid"
              + " give chlorine gas, two kinds of chlorine can burn or burst.");
    }
    switch (product) {
      case MURIATIC_ACID, DRY_ACID ->
          cautions.add(
              "Acid into water, never water into acid, and never together with chlorine: goggles,"
                  + " gloves, hours between the two.");
      case CALCIUM_CHLORIDE ->
          cautions.add("It grows hot as it dissolves: into much water, little at a time.");
      case SALT -> cautions.add("The cell stays off until it has dissolved, about a day.");
      case WATER_OUT -> cautions.add("The pump must not run dry, nor the cell.");
      default -> {
        // Nothing beyond the general cautions.
      }
    }
    if (!product.water()) {
      cautions.add("The pump runs until it has mixed, about 6 h; one product at a time.");
    }
    if (product.chlorine()) {
      cautions.add(
          "Nobody bathes until it has mixed and a test reads 4 mg/L of free chlorine or less.");
    } else if (!product.water()) {
      cautions.add("Nobody bathes until it has mixed.");
    }
    return List.copyOf(cautions);
  }
}
