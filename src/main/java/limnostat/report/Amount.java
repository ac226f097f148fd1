package limnostat.report;

import java.math.BigDecimal;
import java.math.MathContext;
import limnostat.water.UsUnits;
import limnostat.water.advice.Step;

/** Amounts as a person weighs or pours them: three significant figures, metric or US units. */
final class Amount {
  private static final MathContext FIGURES = new MathContext(3);

  private Amount() {}

  static String shown(double amount, Step.Measure measure, boolean us) {
    return switch (measure) {
      case G ->
          us
              ? larger(amount, UsUnits.G_PER_OZ, "oz", UsUnits.G_PER_LB, "lb")
              : larger(amount, 1, "g", 1000, "kg");
      case ML ->
          us
              ? larger(amount, UsUnits.ML_PER_FL_OZ, "fl oz", 1000 * UsUnits.L_PER_GAL, "gal")
              : larger(amount, 1, "mL", 1000, "L");
      case H -> figures(amount) + " h";
      case M3 -> us ? figures(UsUnits.gallons(amount)) + " gal" : figures(amount) + " m3";
    };
  }

  private static String larger(
      double amount, double small, String smallUnit, double large, String largeUnit) {
    return amount < large
        ? figures(amount / small) + " " + smallUnit
        : figures(amount / large) + " " + largeUnit;
  }

  static String figures(double value) {
    return value == 0 ? "0" : new BigDecimal(value, FIGURES).stripTrailingZeros().toPlainString();
  }
}
