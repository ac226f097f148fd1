package limnostat.water.advice;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import limnostat.water.Alkalinity;
import limnostat.water.BufferedWater;
import limnostat.water.ChlorineForm;
import limnostat.water.Dose;
import limnostat.water.Electrolysis;
import limnostat.water.IonicStrength;

/**
 * What to add and in which order: one product at a time, and a test after each.
 *
 * <p>Order: chlorine if there is too little of it (disinfection first, unless pH forbids chlorine).
 * Then dilution, which ends the plan, since no entered value is valid after it. Then alkalinity,
 * pH, calcium, stabiliser and salt. Oxidation comes last, as it closes the pool longest. The order
 * is common practice without a source, as are the targets.
 */
final class Planner {
  /**
   * Chlorine is not dosed outside this range (engineering judgement, like the controller's own
   * limit).
   */
  private static final double CHLORINE_PH_MIN = 6.5;

  private static final double CHLORINE_PH_MAX = 8.5;

  // Limits of one step, so that an error stays small (engineering judgement).
  private static final double CHLORINE_STEP_MG_L = 10;
  private static final double PH_STEP = 0.5;
  private static final double ACID_STEP_EQ_L = 0.2e-3;
  private static final double ALKALINITY_STEP_MG_L = 50;
  private static final double HARDNESS_STEP_MG_L = 100;
  private static final double REPLACED_STEP = 1 / 3.0;

  private static final double FREE_CHLORINE_LIMIT_MG_L = 20;

  private static final double PH_TARGET = 7.5;
  private static final double ALKALINITY_TARGET_MG_L = 80;
  private static final double HARDNESS_TARGET_MG_L = 200;
  private static final double STABILISER_LEAST_MG_L = 20;
  private static final double STABILISER_TARGET_MG_L = 30;
  private static final double SALT_TARGET_MG_L = 3200;

  /** Superchlorination if combined chlorine was not entered: a bag in 10,000 gal. */
  private static final double BAG_MG_L = 8;

  /** A pound of non-chlorine oxidiser in 10,000 gal (common practice, no source). */
  private static final double OXIDISER_LIKE_MG_L = 2.5;

  private final PoolTest test;
  private final Supplies supplies;
  private final double volumeM3;
  private final List<Step> steps = new ArrayList<>();
  private double chlorineRiseMgL;

  private Planner(PoolTest test, Supplies supplies) {
    this.test = test;
    this.supplies = supplies;
    this.volumeM3 = test.volumeM3().getAsDouble();
  }

  /** The steps in their order; none without a volume. */
  static List<Step> plan(PoolTest test, Supplies supplies) {
    if (test.volumeM3().isEmpty()) {
      return List.of();
    }
    Planner planner = new Planner(test, supplies);
    planner.inOrder();
    return spaced(planner.steps);
  }

  private void inOrder() {
    boolean chlorineAllowed = chlorineAllowed(test);
    if (chlorineAllowed) {
      chlorine();
    }
    if (dilution()) {
      return;
    }
    bicarbonate();
    ph();
    if (!chlorineAllowed) {
      return; // pH first; the rest depends on the next test
    }
    calcium();
    stabiliser();
    salt();
    oxidation();
  }

  /** Whether the pH, if entered, allows chlorine to be dosed. */
  static boolean chlorineAllowed(PoolTest test) {
    double ph = test.ph().orElse(PH_TARGET);
    return ph >= CHLORINE_PH_MIN && ph <= CHLORINE_PH_MAX;
  }

  /** Delays each step long enough after every earlier one. */
  private static List<Step> spaced(List<Step> steps) {
    double[] startH = new double[steps.size()];
    for (int j = 0; j < startH.length; j++) {
      for (int i = 0; i < j; i++) {
        double apartH = steps.get(i).addition().hoursFrom(steps.get(j).addition());
        startH[j] = Math.max(startH[j], startH[i] + apartH);
      }
    }
    List<Step> spaced = new ArrayList<>();
    for (int i = 0; i < startH.length; i++) {
      Step step = steps.get(i);
      boolean last = i == startH.length - 1;
      double settleH = step.addition().hoursFrom(step.addition());
      spaced.add(step.waiting(last ? settleH : startH[i + 1] - startH[i]));
    }
    return List.copyOf(spaced);
  }

  private void chlorine() {
    if (test.freeChlorineMgL().isEmpty()) {
      return;
    }
    double now = test.freeChlorineMgL().getAsDouble();
    double least = Assessment.freeChlorineLimit(test).min();
    if (now < least) {
      chlorineRiseMgL = least + 1 - now;
      addChlorine(everydayForm(), chlorineRiseMgL, text("free chlorine to %.1f mg/L", least + 1));
    }
  }

  /**
   * The form in use. Liquid instead if cold water or the salt level keeps a cell off, or if more
   * stabiliser would do harm.
   */
  private ChlorineForm everydayForm() {
    boolean off =
        supplies.chlorine() == ChlorineForm.SALT_CELL
            && (test.temperatureOrAssumedC() < Electrolysis.CELL_WATER_C.min()
                || !Limit.SALT_OF_CELL.holds(test.saltMgL().orElse(SALT_TARGET_MG_L)));
    boolean tooMuchStabiliser =
        supplies.chlorine().stabilised()
            && (supplies.indoor() || test.cyanuricAcidMgL().orElse(0) > Limit.CYANURIC_ACID.max());
    return off || tooMuchStabiliser ? ChlorineForm.LIQUID : supplies.chlorine();
  }

  private void addChlorine(ChlorineForm form, double riseMgL, String purpose) {
    double grams = riseMgL * volumeM3;
    double strength = form == supplies.chlorine() ? supplies.strength() : form.usualPercent();
    List<String> effects = effects(form, riseMgL);
    steps.add(
        switch (form) {
          case LIQUID ->
              new Step(
                  Addition.CHLORINE,
                  text("%s, %s %% trade", form.title(), shown(strength)),
                  Dose.liquidChlorineMl(grams, strength),
                  Step.Measure.ML,
                  purpose,
                  effects,
                  0);
          case SALT_CELL ->
              new Step(
                  Addition.CHLORINE,
                  text("%s, %s g/h at full output", form.title(), shown(strength)),
                  Dose.cellHours(grams, strength),
                  Step.Measure.H,
                  purpose,
                  effects,
                  0);
          case CALCIUM_HYPOCHLORITE, DICHLOR, TRICHLOR, LITHIUM_HYPOCHLORITE ->
              new Step(
                  Addition.CHLORINE,
                  text("%s, %s %% available chlorine", form.title(), shown(strength)),
                  Dose.solidChlorineG(grams, strength),
                  Step.Measure.G,
                  purpose,
                  effects,
                  0);
        });
  }

  private static List<String> effects(ChlorineForm form, double riseMgL) {
    List<String> effects = new ArrayList<>();
    effect(effects, "cyanuric acid", riseMgL * form.cyanuricAcidPerMg());
    effect(effects, "calcium hardness", riseMgL * form.calciumHardnessPerMg());
    effect(effects, "salt", riseMgL * form.saltPerMg());
    effect(effects, "total alkalinity once spent", riseMgL * form.alkalinityPerMg());
    if (form == ChlorineForm.TRICHLOR) {
      effects.add("tablets take days: in their own feeder, never in the skimmer");
    }
    return effects;
  }

  private static void effect(List<String> effects, String what, double changeMgL) {
    if (Math.abs(changeMgL) >= 0.05) {
      effects.add(text("%s %+.1f mg/L", what, changeMgL));
    }
  }

  private boolean dilution() {
    double share = 0;
    String purpose = "";
    double[][] tooMuch = {
      {test.cyanuricAcidMgL().orElse(0), Limit.CYANURIC_ACID.max(), 50},
      {test.saltMgL().orElse(0), Limit.SALT_OF_CELL.max(), SALT_TARGET_MG_L},
      {test.calciumHardnessMgL().orElse(0), Limit.CALCIUM_HARDNESS.max(), 400},
    };
    String[] names = {"cyanuric acid", "salt", "calcium hardness"};
    for (int i = 0; i < names.length; i++) {
      double now = tooMuch[i][0];
      double wanted = now > tooMuch[i][1] ? Dose.replacedShare(now, tooMuch[i][2], 0) : 0;
      if (wanted > share) {
        share = wanted;
        purpose = text("%s from %.0f towards %.0f mg/L", names[i], now, tooMuch[i][2]);
      }
    }
    if (share == 0) {
      return false;
    }
    double once = Math.min(share, REPLACED_STEP);
    List<String> effects = new ArrayList<>();
    effects.add("clean fill water is assumed; test it");
    if (share > once) {
      effects.add(
          text(
              "%.0f %% of the water in all; a third at a time, as an emptied shell can lift",
              100 * share));
    }
    steps.add(
        new Step(
            Addition.DILUTION,
            "water drained, then replaced with fresh",
            once * volumeM3,
            Step.Measure.M3,
            purpose,
            effects,
            0));
    return true;
  }

  private void bicarbonate() {
    double riseMgL = bicarbonateRiseMgL();
    if (riseMgL == 0) {
      return;
    }
    double now = test.totalAlkalinityMgL().getAsDouble();
    steps.add(
        new Step(
            Addition.BICARBONATE,
            "sodium bicarbonate",
            volumeM3 * Dose.bicarbonateGM3(riseMgL),
            Step.Measure.G,
            text("total alkalinity from %.0f to %.0f mg/L", now, now + riseMgL),
            List.of(),
            0));
  }

  private double bicarbonateRiseMgL() {
    double now = test.totalAlkalinityMgL().orElse(ALKALINITY_TARGET_MG_L);
    return now >= Limit.TOTAL_ALKALINITY.min()
        ? 0
        : Math.min(ALKALINITY_TARGET_MG_L - now, ALKALINITY_STEP_MG_L);
  }

  private void ph() {
    if (test.ph().isEmpty() || test.totalAlkalinityMgL().isEmpty()) {
      return;
    }
    BufferedWater water = water();
    double now = water.ph();
    boolean muchAlkalinity = test.totalAlkalinityMgL().getAsDouble() > Limit.TOTAL_ALKALINITY.max();
    double target = muchAlkalinity ? Limit.PH.min() : PH_TARGET;
    if (now > Limit.PH.max() || (muchAlkalinity && now > target)) {
      acid(water, Math.max(target, now - PH_STEP), muchAlkalinity);
    } else if (now < Limit.PH.min() && !muchAlkalinity) {
      sodaAsh(water, Math.min(target, now + PH_STEP));
    }
  }

  /** The water as tested, plus the bicarbonate that an earlier step adds. */
  private BufferedWater water() {
    BufferedWater tested =
        BufferedWater.of(
            test.totalAlkalinityMgL().getAsDouble(),
            test.ph().getAsDouble(),
            test.freeChlorineMgL().orElse(0),
            test.cyanuricAcidMgL().orElse(0),
            test.temperatureOrAssumedC(),
            IonicStrength.ofSaltMolL(test.saltMgL().orElse(0)));
    double added = bicarbonateRiseMgL() / Alkalinity.CACO3_MG_EQ;
    return tested.plusAcidEqL(-added).withCarbon(tested.carbonMolL() + added);
  }

  private void acid(BufferedWater water, double towards, boolean muchAlkalinity) {
    double eqL = Math.min(water.acidToEqL(towards), ACID_STEP_EQ_L);
    double equivalents = 1000 * volumeM3 * eqL;
    List<String> effects = new ArrayList<>();
    effect(effects, "total alkalinity", -eqL * Alkalinity.CACO3_MG_EQ);
    if (muchAlkalinity) {
      effects.add("then aerate: pH rises again, alkalinity stays down");
    }
    String purpose = text("pH from %.2f to %.2f", water.ph(), water.plusAcidEqL(eqL).ph());
    steps.add(
        switch (supplies.acid()) {
          case MURIATIC ->
              new Step(
                  Addition.ACID,
                  "muriatic acid, 31.45 %",
                  Dose.muriaticAcidMl(equivalents, Dose.MURIATIC_PERCENT),
                  Step.Measure.ML,
                  purpose,
                  effects,
                  0);
          case DRY ->
              new Step(
                  Addition.ACID,
                  "dry acid, 93.2 % sodium bisulfate",
                  Dose.dryAcidG(equivalents),
                  Step.Measure.G,
                  purpose,
                  effects,
                  0);
        });
  }

  private void sodaAsh(BufferedWater water, double towards) {
    double molL =
        Math.min(water.sodaAshToMolL(towards), ALKALINITY_STEP_MG_L / (2 * Alkalinity.CACO3_MG_EQ));
    double riseMgL = 2 * molL * Alkalinity.CACO3_MG_EQ;
    BufferedWater after = water.plusAcidEqL(-2 * molL).withCarbon(water.carbonMolL() + molL);
    List<String> effects = new ArrayList<>();
    effect(effects, "total alkalinity", riseMgL);
    steps.add(
        new Step(
            Addition.SODA_ASH,
            "soda ash (sodium carbonate)",
            volumeM3 * Dose.sodaAshGM3(riseMgL),
            Step.Measure.G,
            text("pH from %.2f to %.2f", water.ph(), after.ph()),
            effects,
            0));
  }

  private void calcium() {
    double now = test.calciumHardnessMgL().orElse(HARDNESS_TARGET_MG_L);
    if (now >= Limit.CALCIUM_HARDNESS.min()) {
      return;
    }
    double riseMgL = Math.min(HARDNESS_TARGET_MG_L - now, HARDNESS_STEP_MG_L);
    steps.add(
        new Step(
            Addition.CALCIUM,
            "calcium chloride, 77 % flakes",
            volumeM3 * Dose.calciumChlorideGM3(riseMgL, Dose.CALCIUM_CHLORIDE_PERCENT),
            Step.Measure.G,
            text("calcium hardness from %.0f to %.0f mg/L", now, now + riseMgL),
            List.of("gives heat as it dissolves: into plenty of water, a little at a time"),
            0));
  }

  private void stabiliser() {
    double now = test.cyanuricAcidMgL().orElse(STABILISER_TARGET_MG_L);
    if (supplies.indoor() || supplies.chlorine().stabilised() || now >= STABILISER_LEAST_MG_L) {
      return;
    }
    steps.add(
        new Step(
            Addition.STABILISER,
            "stabiliser (cyanuric acid)",
            volumeM3 * Dose.stabiliserGM3(STABILISER_TARGET_MG_L - now),
            Step.Measure.G,
            text(
                "cyanuric acid from %.0f to %.0f mg/L, outdoors (common practice, no source)",
                now, STABILISER_TARGET_MG_L),
            List.of("dissolves slowly: a test shows all of it after about a week"),
            0));
  }

  private void salt() {
    double now = test.saltMgL().orElse(SALT_TARGET_MG_L);
    if (supplies.chlorine() != ChlorineForm.SALT_CELL || now >= Limit.SALT_OF_CELL.min()) {
      return;
    }
    steps.add(
        new Step(
            Addition.SALT,
            "salt (sodium chloride)",
            volumeM3 * Dose.saltGM3(SALT_TARGET_MG_L - now),
            Step.Measure.G,
            text("salt from %.0f to %.0f mg/L", now, SALT_TARGET_MG_L),
            List.of("cell off until it has dissolved"),
            0));
  }

  private void oxidation() {
    double combined = test.combinedChlorineMgL().orElse(0);
    switch (supplies.oxidise()) {
      case WHEN_NEEDED -> {
        if (combined > Limit.COMBINED_CHLORINE.max()) {
          superchlorination(combined);
        }
      }
      case CHLORINE -> superchlorination(combined);
      case NON_CHLORINE ->
          steps.add(
              new Step(
                  Addition.NON_CHLORINE_OXIDISER,
                  "non-chlorine oxidiser (monopersulfate, 4.7 % active oxygen)",
                  volumeM3 * Dose.monopersulfateGM3(OXIDISER_LIKE_MG_L),
                  Step.Measure.G,
                  "weekly oxidation, in turn with chlorine (common practice, no source)",
                  List.of(
                      "disinfects nothing, and may read as combined chlorine",
                      "bathing again after 15 min (common practice, no source)"),
                  0));
    }
  }

  private void superchlorination(double combinedMgL) {
    double now = test.freeChlorineMgL().orElse(0) + chlorineRiseMgL;
    // ten times the combined chlorine, counted as Cl2 (common practice; breakpoint theory counts N)
    double level = combinedMgL > 0 ? 10 * combinedMgL : now + BAG_MG_L;
    double rise =
        Math.min(Math.min(level - now, CHLORINE_STEP_MG_L), FREE_CHLORINE_LIMIT_MG_L - now);
    if (rise < 0.5) {
      return;
    }
    // tablets are slow and bring stabiliser; cells cope poorly with a shock load (secondary source)
    ChlorineForm form =
        switch (everydayForm()) {
          case TRICHLOR, SALT_CELL, LIQUID -> ChlorineForm.LIQUID;
          case CALCIUM_HYPOCHLORITE, DICHLOR, LITHIUM_HYPOCHLORITE -> supplies.chlorine();
        };
    addChlorine(
        form,
        rise,
        text(
            "superchlorination to %.1f mg/L, in the evening; weekly in turn with non-chlorine"
                + " (common practice, no source)",
            now + rise));
  }

  private static String shown(double value) {
    return value == Math.rint(value) ? text("%.0f", value) : text("%s", value);
  }

  private static String text(String format, Object... parts) {
    return String.format(Locale.ROOT, format, parts);
  }
}
