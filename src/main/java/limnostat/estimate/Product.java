package limnostat.estimate;

import java.util.Arrays;
import java.util.Optional;
import limnostat.water.Alkalinity;
import limnostat.water.ChlorineForm;
import limnostat.water.Dose;

/**
 * Products that people add to a pool by hand, and water that they add or drain. Usual strengths are
 * those of {@link ChlorineForm} and {@link Dose}. The limits of possible strengths are wide
 * (engineering judgement on what is sold).
 */
public enum Product {
  LIQUID_CHLORINE("liquid_chlorine", Measure.ML, Strength.of(ChlorineForm.LIQUID, 1, 20)),
  CALCIUM_HYPOCHLORITE(
      "calcium_hypochlorite", Measure.G, Strength.of(ChlorineForm.CALCIUM_HYPOCHLORITE, 30, 80)),
  DICHLOR("dichlor", Measure.G, Strength.of(ChlorineForm.DICHLOR, 50, 65)),
  TRICHLOR("trichlor", Measure.G, Strength.of(ChlorineForm.TRICHLOR, 80, 92)),
  LITHIUM_HYPOCHLORITE(
      "lithium_hypochlorite", Measure.G, Strength.of(ChlorineForm.LITHIUM_HYPOCHLORITE, 25, 40)),
  /** Granules of unknown kind: half way between the two kinds that are sold in packs. */
  CHLORINE_PACK("chlorine_pack", Measure.G, new Strength(60, 20, 92)),
  NON_CHLORINE_OXIDISER("non_chlorine_oxidiser", Measure.G, Strength.FIXED),
  MURIATIC_ACID("muriatic_acid", Measure.ML, new Strength(Dose.MURIATIC_PERCENT, 5, 38)),
  DRY_ACID("dry_acid", Measure.G, new Strength(Dose.DRY_ACID_PERCENT, 50, 100)),
  BICARBONATE("bicarbonate", Measure.G, Strength.FIXED),
  SODA_ASH("soda_ash", Measure.G, Strength.FIXED),
  STABILISER("stabiliser", Measure.G, Strength.FIXED),
  SALT("salt", Measure.G, Strength.FIXED),
  CALCIUM_CHLORIDE(
      "calcium_chloride", Measure.G, new Strength(Dose.CALCIUM_CHLORIDE_PERCENT, 50, 100)),
  FRESH_WATER("fresh_water", Measure.L, Strength.FIXED),
  WATER_OUT("water_out", Measure.L, Strength.FIXED);

  /** Unit in which it is measured. */
  public enum Measure {
    G("g"),
    ML("mL"),
    L("L");

    private final String unit;

    Measure(String unit) {
      this.unit = unit;
    }

    public String unit() {
      return unit;
    }
  }

  /**
   * Strength, % by weight; for liquid chlorine trade %, g of chlorine in 100 mL.
   *
   * @param usual default strength; 0: not applicable
   * @param least lowest possible strength
   * @param most highest possible strength
   */
  public record Strength(double usual, double least, double most) {
    static final Strength FIXED = new Strength(0, 0, 0);

    static Strength of(ChlorineForm form, double least, double most) {
      return new Strength(form.usualPercent(), least, most);
    }

    public boolean matters() {
      return usual > 0;
    }
  }

  /**
   * Relative standard deviation of an addition's effect: from the label, a kitchen measure and the
   * pool's volume (engineering judgement). Liquid chlorine loses half of its strength in some
   * months, and a pack may be either of two kinds.
   */
  private static final double UNSURE = 0.2;

  private static final double LIQUID_UNSURE = 0.25;
  private static final double PACK_UNSURE = 0.35;

  /** Tablets in a floater or a skimmer last for about this long, s (common practice, no source). */
  private static final double TABLETS_S = 5 * 86_400.0;

  /**
   * Formula mass, per mole of active oxygen, of the triple salt 2 KHSO5·KHSO4·K2SO4 (from memory).
   */
  private static final double MONOPERSULFATE_G_MOL = 307.4;

  /** It leaves 1.5 mol of acid behind for each mole of active oxygen. */
  private static final double MONOPERSULFATE_ACID_EQ_G = 1.5 / MONOPERSULFATE_G_MOL;

  /**
   * Share of a base's alkalinity that raises pH, at pH 7 to 8. The rest is offset by the carbon
   * that it brings.
   */
  private static final double BICARBONATE_LIFTS = 0.2;

  private static final double SODA_ASH_LIFTS = 0.6;

  /** Salt as NaCl that an equivalent of hydrochloric acid leaves, g (from memory). */
  private static final double NACL_G_EQ = 58.443;

  private final String key;
  private final Measure measure;

  // Strength is a record of numbers.
  @SuppressWarnings("ImmutableEnumChecker")
  private final Strength strength;

  Product(String key, Measure measure, Strength strength) {
    this.key = key;
    this.measure = measure;
    this.strength = strength;
  }

  /** Its stable name on the wire and on a command line. */
  public String key() {
    return key;
  }

  public static Optional<Product> ofKey(String key) {
    return Arrays.stream(values()).filter(product -> product.key.equals(key)).findFirst();
  }

  /** Its name for people. */
  public String title() {
    return switch (this) {
      case WATER_OUT -> "water let out";
      case CHLORINE_PACK -> "a chlorine pack of unknown kind";
      default -> key.replace('_', ' ');
    };
  }

  public Measure measure() {
    return measure;
  }

  public Strength strength() {
    return strength;
  }

  /** Whether it adds free chlorine. */
  public boolean chlorine() {
    return switch (this) {
      case LIQUID_CHLORINE,
          CALCIUM_HYPOCHLORITE,
          DICHLOR,
          TRICHLOR,
          LITHIUM_HYPOCHLORITE,
          CHLORINE_PACK ->
          true;
      default -> false;
    };
  }

  /** Whether it is water that is added or drained. */
  public boolean water() {
    return measure == Measure.L;
  }

  /** Relative standard deviation of its effect. */
  double unsure() {
    return switch (this) {
      case LIQUID_CHLORINE -> LIQUID_UNSURE;
      case CHLORINE_PACK -> PACK_UNSURE;
      default -> UNSURE;
    };
  }

  /** Time until all of it has dissolved, s; 0: no longer than the water takes to mix. */
  double lastsS() {
    return this == TRICHLOR ? TABLETS_S : 0;
  }

  /** Chlorine in an amount, g as Cl2. */
  public double chlorineG(double amount, double percent) {
    return chlorine() ? amount * percent / 100 : 0;
  }

  /** Change by an amount in 1 m³ of water. Water itself changes nothing here. */
  public WaterChange change(double amount, double percent) {
    return switch (this) {
      case LIQUID_CHLORINE -> chlorine(ChlorineForm.LIQUID, amount, percent);
      case CALCIUM_HYPOCHLORITE -> chlorine(ChlorineForm.CALCIUM_HYPOCHLORITE, amount, percent);
      case DICHLOR -> chlorine(ChlorineForm.DICHLOR, amount, percent);
      case TRICHLOR -> chlorine(ChlorineForm.TRICHLOR, amount, percent);
      case LITHIUM_HYPOCHLORITE -> chlorine(ChlorineForm.LITHIUM_HYPOCHLORITE, amount, percent);
      case CHLORINE_PACK -> pack(amount, percent);
      case NON_CHLORINE_OXIDISER -> WaterChange.acid(MONOPERSULFATE_ACID_EQ_G * amount, 0);
      case MURIATIC_ACID -> {
        double eq = amount / Dose.muriaticAcidMl(1, percent);
        yield WaterChange.acid(eq, NACL_G_EQ * eq);
      }
      case DRY_ACID ->
          WaterChange.acid(amount / Dose.dryAcidG(1) * percent / Dose.DRY_ACID_PERCENT, 0);
      case BICARBONATE -> WaterChange.base(amount / Dose.bicarbonateGM3(1), BICARBONATE_LIFTS);
      case SODA_ASH -> WaterChange.base(amount / Dose.sodaAshGM3(1), SODA_ASH_LIFTS);
      case STABILISER -> WaterChange.NONE.withStabiliser(amount / Dose.stabiliserGM3(1));
      case SALT -> WaterChange.NONE.withSalt(amount / Dose.saltGM3(1));
      case CALCIUM_CHLORIDE ->
          WaterChange.NONE.withCalciumHardness(amount / Dose.calciumChlorideGM3(1, percent));
      case FRESH_WATER, WATER_OUT -> WaterChange.NONE;
    };
  }

  private static WaterChange chlorine(ChlorineForm form, double amount, double percent) {
    double mgL = amount * percent / 100;
    return new WaterChange(
        mgL,
        form.cyanuricAcidPerMg() * mgL,
        form.saltPerMg() * mgL,
        form.calciumHardnessPerMg() * mgL,
        form.alkalinityPerMg() * mgL,
        form.alkalinityAddedEqPerMg() * Alkalinity.CACO3_MG_EQ * mgL);
  }

  /** Calcium hypochlorite or dichlor: half of the effect of each. */
  private static WaterChange pack(double amount, double percent) {
    return chlorine(ChlorineForm.CALCIUM_HYPOCHLORITE, amount, percent)
        .times(0.5)
        .plus(chlorine(ChlorineForm.DICHLOR, amount, percent).times(0.5));
  }
}
