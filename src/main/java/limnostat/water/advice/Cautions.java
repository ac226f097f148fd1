package limnostat.water.advice;

import java.util.ArrayList;
import java.util.List;
import limnostat.water.ChlorineForm;

/**
 * Warnings about what can hurt people, to be read before using the amounts. Common practice if no
 * source is given.
 */
final class Cautions {
  private Cautions() {}

  static List<String> of(PoolTest test, Supplies supplies, List<Step> steps) {
    List<String> cautions = new ArrayList<>();
    if (!steps.isEmpty()) {
      cautions.add(
          "One product at a time, the pump running, nobody in the water. Wait, test, and run this"
              + " again before the next: later amounts are forecasts.");
      cautions.add(
          "Never mix products, wet or dry, in a bucket, scoop, skimmer or feeder. Acid and chlorine"
              + " together give chlorine gas.");
      cautions.add("Goggles and gloves; lids shut; acid and chlorine stored apart.");
    }
    if (has(steps, Addition.ACID)) {
      cautions.add("Acid into water, never water into acid.");
    }
    if (has(steps, Addition.CHLORINE)) {
      cautions.add(
          "Stabilised and unstabilised tablets must never meet in one feeder, which can burst"
              + " (common practice, no source).");
      cautions.add(
          "After chlorine wait about 6 h, and test, before anyone bathes (common practice, no"
              + " source); nobody bathes above 4 mg/L of free chlorine.");
    }
    if (steps.stream()
        .anyMatch(s -> s.addition() == Addition.CHLORINE && s.measure() == Step.Measure.G)) {
      cautions.add(
          "Keep granules dry; an opened bag is not kept. A bag (1 lb) or a gallon of liquid in"
              + " 10,000 gal is a superchlorination (common practice, no source).");
    }
    if (!Planner.chlorineAllowed(test)) {
      cautions.add("No chlorine below pH 6.5 or above 8.5: pH first, then test again.");
    }
    if (test.ph().orElse(Limit.PH.min()) < Limit.PH.min()
        && test.totalAlkalinityMgL().orElse(0) > Limit.TOTAL_ALKALINITY.max()) {
      cautions.add(
          "Aerate instead of adding a base: carbon dioxide leaves, pH rises, alkalinity stays.");
    }
    if (test.cyanuricAcidMgL().orElse(0) > Limit.CYANURIC_ACID.max()) {
      cautions.add(
          "With so much stabiliser, alkalinity and pH readings mislead (common practice, no"
              + " source).");
    }
    if (supplies.chlorine() == ChlorineForm.SALT_CELL) {
      cautions.add(
          "A salt pool is a chlorine pool. No cell without flow: its hydrogen collects and can"
              + " explode.");
    }
    cautions.add("Local codes, product labels and licensed practice go before all of this.");
    cautions.add("Test the water yourself before anyone bathes; nobody bathes in cloudy water.");
    return List.copyOf(cautions);
  }

  private static boolean has(List<Step> steps, Addition addition) {
    return steps.stream().anyMatch(step -> step.addition() == addition);
  }
}
