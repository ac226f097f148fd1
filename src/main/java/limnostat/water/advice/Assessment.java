package limnostat.water.advice;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import limnostat.water.Alkalinity;
import limnostat.water.ChlorineForm;
import limnostat.water.ChlorineSpecies;
import limnostat.water.Cyanurate;
import limnostat.water.IonicStrength;
import limnostat.water.OrpFit;
import limnostat.water.SaturationIndex;

/**
 * Everything that follows from a pool test.
 *
 * @param speciation present if free chlorine above 0, pH and stabiliser were entered
 * @param orp present if there is a speciation; a guess without a fit to the site's electrode
 * @param balance present if pH, alkalinity, stabiliser and hardness were entered
 * @param broken what is outside its range
 * @param noBathing reasons against bathing that the test shows; an empty list is not permission
 * @param steps what to add, in this order, never two at once
 * @param cautions to be read before touching anything
 * @param missing what was not entered, and what it is needed for
 */
public record Assessment(
    Optional<Speciation> speciation,
    Optional<OrpFit.Potential> orp,
    Optional<Balance> balance,
    List<Limit.Broken> broken,
    List<String> noBathing,
    List<Step> steps,
    List<String> cautions,
    List<String> missing) {

  /**
   * @param uncertaintyFraction relative uncertainty of HOCl
   */
  public record Speciation(
      ChlorineSpecies species, String constants, double uncertaintyFraction, double temperatureC) {}

  /**
   * @param fieldForm saturation index in the field form
   * @param thermodynamicForm the index in the thermodynamic form; not to be compared with the other
   */
  public record Balance(
      double fieldForm,
      double thermodynamicForm,
      double carbonateAlkalinityMgL,
      double dissolvedSolidsMgL,
      double temperatureC) {}

  /** Without stabiliser, handbooks differ by 3 percentage points in about 50. */
  private static final double PLAIN_UNCERTAINTY_FRACTION = 0.06;

  private static final Set<Limit> AGAINST_BATHING =
      Set.of(
          Limit.FREE_CHLORINE,
          Limit.FREE_CHLORINE_STABILISED,
          Limit.COMBINED_CHLORINE,
          Limit.PH,
          Limit.TEMPERATURE);

  /**
   * @throws limnostat.water.OutsideValidityException if the values contradict each other
   */
  public static Assessment of(PoolTest test, Supplies supplies) {
    Optional<Speciation> speciation = speciation(test);
    List<Limit.Broken> broken = broken(test, supplies);
    List<Step> steps = Planner.plan(test, supplies);
    return new Assessment(
        speciation,
        speciation.map(s -> orp(test, s)),
        balance(test),
        broken,
        noBathing(broken),
        steps,
        Cautions.of(test, supplies, steps),
        missing(test));
  }

  private static Optional<Speciation> speciation(PoolTest test) {
    if (!entered(test.freeChlorineMgL(), test.ph(), test.cyanuricAcidMgL())
        || test.freeChlorineMgL().getAsDouble() == 0) {
      return Optional.empty();
    }
    double stabiliser = test.cyanuricAcidMgL().getAsDouble();
    double t = test.temperatureOrAssumedC();
    return Optional.of(
        new Speciation(
            Cyanurate.species(
                test.freeChlorineMgL().getAsDouble(),
                stabiliser,
                test.ph().getAsDouble(),
                t,
                IonicStrength.ofSaltMolL(test.saltMgL().orElse(0))),
            stabiliser > 0 ? Cyanurate.CONSTANTS : "Morris (1966)",
            stabiliser > 0 ? Cyanurate.UNCERTAINTY_FRACTION : PLAIN_UNCERTAINTY_FRACTION,
            t));
  }

  private static OrpFit.Potential orp(PoolTest test, Speciation speciation) {
    return OrpFit.START.expected(
        Cyanurate.mgL(speciation.species().hoclMolL()),
        speciation.uncertaintyFraction(),
        test.ph().getAsDouble(),
        speciation.temperatureC());
  }

  private static Optional<Balance> balance(PoolTest test) {
    if (!entered(
        test.ph(), test.totalAlkalinityMgL(), test.cyanuricAcidMgL(), test.calciumHardnessMgL())) {
      return Optional.empty();
    }
    double ph = test.ph().getAsDouble();
    double t = test.temperatureOrAssumedC();
    double carbonate =
        Alkalinity.carbonateMgL(
            test.totalAlkalinityMgL().getAsDouble(), test.cyanuricAcidMgL().getAsDouble(), ph);
    SaturationIndex.Balance water =
        new SaturationIndex.Balance(
            ph, t, test.calciumHardnessMgL().getAsDouble(), carbonate, test.dissolvedSolidsMgL());
    return Optional.of(
        new Balance(
            SaturationIndex.fieldForm(water),
            SaturationIndex.thermodynamicForm(water),
            carbonate,
            test.dissolvedSolidsMgL(),
            t));
  }

  static Limit freeChlorineLimit(PoolTest test) {
    return test.stabilised() ? Limit.FREE_CHLORINE_STABILISED : Limit.FREE_CHLORINE;
  }

  private static List<Limit.Broken> broken(PoolTest test, Supplies supplies) {
    List<Limit.Broken> broken = new ArrayList<>();
    judge(broken, freeChlorineLimit(test), test.freeChlorineMgL());
    judge(broken, Limit.COMBINED_CHLORINE, test.combinedChlorineMgL());
    judge(broken, Limit.PH, test.ph());
    judge(broken, Limit.TOTAL_ALKALINITY, test.totalAlkalinityMgL());
    judge(
        broken,
        supplies.indoor() ? Limit.CYANURIC_ACID_INDOOR : Limit.CYANURIC_ACID,
        test.cyanuricAcidMgL());
    judge(broken, Limit.CALCIUM_HARDNESS, test.calciumHardnessMgL());
    if (supplies.chlorine() == ChlorineForm.SALT_CELL) {
      judge(broken, Limit.SALT_OF_CELL, test.saltMgL());
    }
    judge(broken, Limit.TEMPERATURE, test.temperatureC());
    return List.copyOf(broken);
  }

  private static void judge(List<Limit.Broken> broken, Limit limit, OptionalDouble value) {
    if (value.isPresent() && !limit.holds(value.getAsDouble())) {
      broken.add(new Limit.Broken(limit, value.getAsDouble()));
    }
  }

  private static List<String> noBathing(List<Limit.Broken> broken) {
    return broken.stream()
        .filter(b -> AGAINST_BATHING.contains(b.limit()))
        .map(b -> b.limit().quantity() + (b.high() ? " is too high" : " is too low"))
        .toList();
  }

  private static List<String> missing(PoolTest test) {
    List<String> missing = new ArrayList<>();
    missing(missing, test.volumeM3(), "volume: no amounts without it");
    missing(missing, test.freeChlorineMgL(), "free chlorine: no speciation, no chlorine dose");
    missing(missing, test.ph(), "pH: no speciation, balance or acid dose");
    missing(missing, test.totalAlkalinityMgL(), "total alkalinity: no balance or acid dose");
    missing(
        missing,
        test.cyanuricAcidMgL(),
        "cyanuric acid (0 where there is none): no speciation or balance; taken as present for the"
            + " chlorine minimum and as 0 for acid");
    missing(missing, test.calciumHardnessMgL(), "calcium hardness: no balance");
    missing(missing, test.saltMgL(), "salt: taken as 0, dissolved solids as 1000 mg/L");
    missing(missing, test.temperatureC(), "temperature: taken as 25 degC");
    missing(missing, test.combinedChlorineMgL(), "combined chlorine: not judged");
    return List.copyOf(missing);
  }

  private static void missing(List<String> missing, OptionalDouble value, String text) {
    if (value.isEmpty()) {
      missing.add(text);
    }
  }

  private static boolean entered(OptionalDouble... values) {
    for (OptionalDouble value : values) {
      if (value.isEmpty()) {
        return false;
      }
    }
    return true;
  }
}
