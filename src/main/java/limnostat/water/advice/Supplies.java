package limnostat.water.advice;

import limnostat.water.ChlorineForm;
import limnostat.water.Validity;

/**
 * The products at hand, and the kind of pool.
 *
 * @param chlorine the form in use
 * @param strength % available chlorine, for liquid trade %, for a cell g/h
 * @param acid the acid in use
 * @param oxidise what to oxidise with this week
 * @param indoor whether no sun reaches the water: then no stabiliser
 */
public record Supplies(
    ChlorineForm chlorine, double strength, Acid acid, Oxidation oxidise, boolean indoor) {
  /**
   * @throws limnostat.water.OutsideValidityException if the strength is impossible for that product
   */
  public Supplies {
    switch (chlorine) {
      case LIQUID -> check("liquid chlorine, trade %", 1, 20, strength);
      case SALT_CELL -> check("cell output, g/h", 1, 5000, strength);
      case CALCIUM_HYPOCHLORITE, DICHLOR, TRICHLOR, LITHIUM_HYPOCHLORITE ->
          check("available chlorine, %", 20, 95, strength);
    }
  }

  private static void check(String quantity, double min, double max, double strength) {
    new Validity(quantity, min, max, "", "read the product's label").check(strength);
  }

  /** Muriatic acid is 31.45 % HCl, dry acid 93.2 % sodium bisulfate. */
  public enum Acid {
    MURIATIC,
    DRY
  }

  /** The weekly oxidation alternates between chlorine and non-chlorine (common practice). */
  public enum Oxidation {
    WHEN_NEEDED,
    CHLORINE,
    NON_CHLORINE
  }
}
