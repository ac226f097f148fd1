package limnostat.water.advice;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.HashSet;
import java.util.List;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.Set;
import limnostat.water.ChlorineForm;
import limnostat.water.OutsideValidityException;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class PlannerTest {
  private static final Supplies LIQUID =
      new Supplies(
          ChlorineForm.LIQUID, 12.5, Supplies.Acid.MURIATIC, Supplies.Oxidation.WHEN_NEEDED, false);

  private static OptionalDouble maybe(Random random, double min, double max) {
    return random.nextInt(8) == 0
        ? OptionalDouble.empty()
        : OptionalDouble.of(min + (max - min) * random.nextDouble());
  }

  private static PoolTest anyTest(Random random) {
    return new PoolTest(
        OptionalDouble.of(1 + 200 * random.nextDouble()),
        maybe(random, 0, 15),
        maybe(random, 0, 3),
        maybe(random, 6, 9),
        maybe(random, 10, 300),
        maybe(random, 0, 200),
        maybe(random, 10, 1500),
        maybe(random, 0, 9000),
        maybe(random, 0, 40));
  }

  private static <T> T any(Random random, T[] values) {
    return values[random.nextInt(values.length)];
  }

  private static Supplies anySupplies(Random random) {
    ChlorineForm form = any(random, ChlorineForm.values());
    return new Supplies(
        form,
        form == ChlorineForm.SALT_CELL ? 20 : form.usualPercent(),
        any(random, Supplies.Acid.values()),
        any(random, Supplies.Oxidation.values()),
        random.nextBoolean());
  }

  private interface Rule {
    void hold(PoolTest test, Supplies supplies, List<Step> steps, String at);
  }

  /** 5000 pools; at least most of them must be answered, and all additions seen. */
  private static void overGeneratedPools(Rule rule) {
    Random random = new Random(5);
    int answered = 0;
    Set<Addition> seen = new HashSet<>();
    for (int i = 0; i < 5000; i++) {
      PoolTest test = anyTest(random);
      Supplies supplies = anySupplies(random);
      List<Step> steps;
      try {
        steps = Assessment.of(test, supplies).steps();
      } catch (OutsideValidityException e) {
        // stabiliser that explains more than the alkalinity: the tests contradict each other
        assertTrue(e.getMessage().contains("alkalinity"), e.getMessage());
        continue;
      }
      answered++;
      steps.forEach(step -> seen.add(step.addition()));
      rule.hold(test, supplies, steps, test + ", " + supplies + " -> " + steps);
    }
    assertTrue(answered > 3500, "answered " + answered);
    assertEquals(Set.of(Addition.values()), seen);
  }

  @Tag("slow")
  @Test
  void noTwoStepsAreTooNear() {
    overGeneratedPools(
        (test, supplies, steps, at) -> {
          for (int i = 0; i < steps.size(); i++) {
            double apartH = 0;
            for (int j = i + 1; j < steps.size(); j++) {
              apartH += steps.get(j - 1).waitH();
              Addition a = steps.get(i).addition();
              Addition b = steps.get(j).addition();
              assertTrue(apartH >= 6, at);
              boolean oxidisers = a == Addition.CHLORINE && b == Addition.NON_CHLORINE_OXIDISER;
              boolean clouds =
                  (a == Addition.BICARBONATE || a == Addition.SODA_ASH) && b == Addition.CALCIUM;
              assertTrue(!(oxidisers || clouds) || apartH >= 24, at);
            }
            assertTrue(steps.get(i).waitH() >= 6, at);
          }
        });
  }

  @Tag("slow")
  @Test
  void everyStepIsOneRealAmount() {
    overGeneratedPools(
        (test, supplies, steps, at) -> {
          for (Step step : steps) {
            assertTrue(step.amount() > 0 && Double.isFinite(step.amount()), at);
          }
        });
  }

  @Tag("slow")
  @Test
  void neverWorksAgainstItself() {
    overGeneratedPools(
        (test, supplies, steps, at) -> {
          List<Addition> kinds = steps.stream().map(Step::addition).toList();
          assertFalse(kinds.contains(Addition.ACID) && kinds.contains(Addition.SODA_ASH), at);
          assertFalse(kinds.contains(Addition.STABILISER) && supplies.indoor(), at);
          // nothing told holds after a dilution
          int dilution = kinds.indexOf(Addition.DILUTION);
          assertTrue(dilution < 0 || dilution == kinds.size() - 1, at);
          double ph = test.ph().orElse(7.5);
          if (ph < 6.5 || ph > 8.5) {
            assertFalse(kinds.contains(Addition.CHLORINE), at);
          }
          boolean oxidiser = kinds.contains(Addition.NON_CHLORINE_OXIDISER);
          assertTrue(!oxidiser || supplies.oxidise() == Supplies.Oxidation.NON_CHLORINE, at);
        });
  }

  @Test
  void cautionsComeWithEveryAddition() {
    Random random = new Random(6);
    for (int i = 0; i < 500; i++) {
      PoolTest test = anyTest(random);
      try {
        Assessment water = Assessment.of(test, anySupplies(random));
        String told = String.join("\n", water.cautions());
        boolean acid = water.steps().stream().anyMatch(s -> s.addition() == Addition.ACID);
        assertEquals(acid, told.contains("Acid into water"), told);
        assertEquals(!water.steps().isEmpty(), told.contains("Never mix"), told);
        assertEquals(!water.steps().isEmpty(), told.contains("Goggles"), told);
        assertTrue(told.contains("Local codes") && told.contains("Test the water yourself"), told);
      } catch (OutsideValidityException e) {
        assertTrue(e.getMessage().contains("alkalinity"), e.getMessage());
      }
    }
  }

  private static PoolTest pool(double fc, double ph, double ta, double cya, double ch) {
    return new PoolTest(
        OptionalDouble.of(50),
        OptionalDouble.of(fc),
        OptionalDouble.of(0),
        OptionalDouble.of(ph),
        OptionalDouble.of(ta),
        OptionalDouble.of(cya),
        OptionalDouble.of(ch),
        OptionalDouble.of(0),
        OptionalDouble.of(25));
  }

  /** By hand from the dose table: fc, pH, TA, CYA, CH in 50 m³; what to add first, how much. */
  @ParameterizedTest
  @CsvSource({
    "1, 7.5, 100, 30, 250, CHLORINE, 800", // 2 mg/L × 50 m³ × 8 mL
    "0, 7.5, 100, 0, 250, CHLORINE, 800", // to 2 mg/L without stabiliser
    "3, 7.5, 40, 30, 250, BICARBONATE, 3358", // 40 mg/L × 50 m³ × 1.679 g
    "3, 7.5, 100, 30, 100, CALCIUM, 7201", // 100 mg/L × 50 m³ × 110.984/100.087/0.77
    "3, 7.5, 100, 10, 250, STABILISER, 1000", // 20 mg/L × 50 m³
    "3, 7.5, 100, 150, 250, DILUTION, 16.667", // a third of 50 m³
    "0, 7.9, 100, 0, 250, CHLORINE, 800" // chlorine before acid
  })
  void firstStep(
      double fc, double ph, double ta, double cya, double ch, Addition addition, double amount) {
    Step first = Planner.plan(pool(fc, ph, ta, cya, ch), LIQUID).get(0);
    assertEquals(addition, first.addition());
    assertEquals(amount, first.amount(), 0.005 * amount);
  }

  /** TA 100, no stabiliser, no chlorine, 7.9 to 7.5: acid table [computed], between its rows. */
  @Test
  void acidIsWhatTheWaterNeeds() {
    Step acid =
        Planner.plan(pool(0, 7.8001, 100, 0, 250), LIQUID).stream()
            .filter(s -> s.addition() == Addition.ACID)
            .findFirst()
            .orElseThrow();
    assertEquals(6.9 * 50, acid.amount(), 0.02 * 6.9 * 50); // 6.9 mL a m³
  }

  /** A form that the water does not bear gives way to liquid: 3 mg/L × 50 m³ × 8 mL. */
  @ParameterizedTest
  @CsvSource({"TRICHLOR, 90, 120", "DICHLOR, 56, 150"})
  void moreStabiliserIsNotAdvised(ChlorineForm form, double strength, double cya) {
    Supplies supplies =
        new Supplies(form, strength, Supplies.Acid.DRY, Supplies.Oxidation.WHEN_NEEDED, false);
    Step first = Planner.plan(pool(0, 7.5, 120, cya, 250), supplies).get(0);
    assertTrue(first.product().startsWith("liquid chlorine"), first.toString());
    assertEquals(1200, first.amount(), 1e-6);
  }

  /** A cell runs 3 mg/L × 50 m³/20 g/h; in water below its cut-out liquid goes in instead. */
  @ParameterizedTest
  @CsvSource({"25, H, 7.5", "14, ML, 1200"})
  void coldWaterKeepsTheCellOff(double temperatureC, Step.Measure measure, double amount) {
    Supplies cell =
        new Supplies(
            ChlorineForm.SALT_CELL, 20, Supplies.Acid.DRY, Supplies.Oxidation.WHEN_NEEDED, false);
    OptionalDouble none = OptionalDouble.empty();
    PoolTest test =
        new PoolTest(
            OptionalDouble.of(50),
            OptionalDouble.of(0),
            none,
            none,
            none,
            OptionalDouble.of(30),
            none,
            OptionalDouble.of(3000),
            OptionalDouble.of(temperatureC));
    Step first = Planner.plan(test, cell).get(0);
    assertEquals(measure, first.measure());
    assertEquals(amount, first.amount(), 1e-6);
  }

  @Test
  void waterInOrderNeedsNothing() {
    assertEquals(List.of(), Planner.plan(pool(3, 7.5, 100, 30, 250), LIQUID));
  }

  @Test
  void withoutVolumeNoAmounts() {
    OptionalDouble none = OptionalDouble.empty();
    PoolTest test =
        new PoolTest(none, OptionalDouble.of(0), none, none, none, none, none, none, none);
    Assessment water = Assessment.of(test, LIQUID);
    assertEquals(List.of(), water.steps());
    assertEquals(List.of("free chlorine is too low"), water.noBathing());
    assertTrue(water.missing().stream().anyMatch(m -> m.startsWith("volume")));
  }
}
