package limnostat.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import limnostat.water.UsUnits;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

class ProductTest {
  /** What a pound, or a gallon of what is poured, makes of 10,000 gal. */
  private static WaterChange of(Product product, double percent) {
    double amount =
        product.measure() == Product.Measure.ML ? 1000 * UsUnits.L_PER_GAL : UsUnits.G_PER_LB;
    return product.change(amount / UsUnits.M3_PER_10000_GAL, percent);
  }

  /** Water-chemistry section 9, ±0.5 %. */
  @ParameterizedTest
  @CsvSource({
    "LIQUID_CHLORINE, 12.5, 12.5",
    "CALCIUM_HYPOCHLORITE, 65, 7.79",
    "CALCIUM_HYPOCHLORITE, 73, 8.75",
    "DICHLOR, 56, 6.71",
    "DICHLOR, 62, 7.43",
    "TRICHLOR, 90, 10.78",
    "SALT, 0, 0",
    "NON_CHLORINE_OXIDISER, 0, 0"
  })
  void freeChlorineOfAPound(Product product, double percent, double mgL) {
    assertEquals(mgL, of(product, percent).freeChlorineMgL(), 0.005 * mgL);
  }

  /** The same table. */
  @ParameterizedTest
  @CsvSource({
    "MURIATIC_ACID, 31.45, -50.1",
    "DRY_ACID, 93.2, -4.66",
    "BICARBONATE, 0, 7.14",
    "SODA_ASH, 0, 11.3"
  })
  void alkalinityOfAPound(Product product, double percent, double mgL) {
    assertEquals(mgL, of(product, percent).totalAlkalinityMgL(), 0.005 * Math.abs(mgL));
  }

  @Test
  void whatElseComesWithIt() {
    assertEquals(11.98, of(Product.STABILISER, 0).stabiliserMgL(), 0.01);
    assertEquals(8.32, of(Product.CALCIUM_CHLORIDE, 77).calciumHardnessMgL(), 0.05);
    assertEquals(10.81, of(Product.CALCIUM_CHLORIDE, 100).calciumHardnessMgL(), 0.05);
    assertEquals(599, 50 * of(Product.SALT, 0).saltMgL(), 1, "50 lb: section 6");
    // For each mg/L of free chlorine.
    WaterChange trichlor = of(Product.TRICHLOR, 90).times(1 / 10.785);
    assertEquals(0.607, trichlor.stabiliserMgL(), 0.001);
    assertEquals(-0.71, trichlor.totalAlkalinityMgL(), 0.01);
    assertEquals(0.910, of(Product.DICHLOR, 56).stabiliserMgL() / 6.711, 0.001);
    assertEquals(0.706, of(Product.CALCIUM_HYPOCHLORITE, 65).calciumHardnessMgL() / 7.79, 0.001);
    WaterChange liquid = of(Product.LIQUID_CHLORINE, 10);
    assertEquals(1.648, liquid.saltMgL() / 10, 0.001);
    assertEquals(0, liquid.totalAlkalinityMgL(), 1e-12, "once spent");
    assertTrue(liquid.baseMgL() > 0, "until then");
    // A gallon of 31.45 % is 37.9 eq (10.01 mol/L), and 58.44 g of salt each.
    assertEquals(37.89 * 58.443 / 37.854, of(Product.MURIATIC_ACID, 31.45).saltMgL(), 0.1);
  }

  /** Both kinds at the middle strength. */
  @Test
  void aPackIsHalfOfEither() {
    WaterChange pack = of(Product.CHLORINE_PACK, 60);
    assertEquals(0.6 * 11.98, pack.freeChlorineMgL(), 0.01);
    assertEquals(0.455, pack.stabiliserMgL() / pack.freeChlorineMgL(), 1e-9);
    assertEquals(0.353, pack.calciumHardnessMgL() / pack.freeChlorineMgL(), 1e-9);
  }

  @ParameterizedTest
  @EnumSource(Product.class)
  void theUsualStrengthIsOneThatCanBe(Product product) {
    Product.Strength strength = product.strength();
    assertTrue(strength.usual() >= strength.least() && strength.usual() <= strength.most());
    assertEquals(Optional.of(product), Product.ofKey(product.key()));
    assertEquals(product.chlorine(), product.change(1, strength.usual()).freeChlorineMgL() > 0);
    assertEquals(product.chlorine() ? 5 : 0, product.chlorineG(10, 50));
    assertTrue(product.unsure() >= 0.2);
    assertTrue(!product.water() || product.change(1, 0).equals(WaterChange.NONE));
  }
}
