package limnostat;

import static com.tngtech.archunit.base.DescribedPredicate.describe;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAnyPackage;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;
import static org.junit.jupiter.api.Assertions.assertFalse;

import com.tngtech.archunit.core.domain.JavaAccess;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.lang.ArchRule;
import java.util.Arrays;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The arrows between the packages point inwards, and what is pure stays pure. */
class LayersTest {
  private static final String[] PURE =
      packages(
          "water",
          "measure",
          "estimate",
          "control",
          "safety",
          "alarm",
          "actuate",
          "account",
          "scan");

  /** Exact on every machine; the other functions may differ in the last place. */
  private static final Set<String> EXACT =
      Set.of("abs", "max", "min", "floor", "ceil", "round", "rint", "floorMod", "floorDiv");

  private static final JavaClasses OURS =
      new ClassFileImporter()
          .withImportOption(ImportOption.Predefined.DO_NOT_INCLUDE_TESTS)
          .importPackages("limnostat");

  /** What a package may know; where the list is empty, none of ours. */
  @ParameterizedTest
  @CsvSource({
    "water, ''",
    "actuate, ''",
    "account, ''",
    "measure, water",
    "estimate, measure water",
    "control, measure estimate",
    "safety, measure estimate actuate",
    "alarm, safety actuate",
    "scan, water measure estimate control safety alarm actuate account",
    "plant, measure actuate",
    "config, water measure estimate control safety alarm actuate account scan",
    "ledger, config water measure estimate control safety alarm actuate account scan",
    "mqtt, config water measure estimate control safety alarm actuate account scan",
    "field, plant config water measure estimate control safety alarm actuate account scan",
    "wire, water measure estimate control safety alarm actuate account scan",
    "report, water measure estimate control safety actuate account scan",
    "daemon, field plant ledger mqtt wire config"
        + " measure estimate control safety alarm actuate account scan",
    "demo, daemon field plant ledger mqtt config"
        + " measure estimate control safety alarm actuate account scan",
    "bench, wire actuate account scan",
    "season, plant water measure estimate control safety alarm actuate account scan",
    "faults, plant water measure estimate control safety alarm actuate account scan"
  })
  void arrowsPointInwards(String from, String to) {
    assertFalse(OURS.that(resideInAnyPackage(packages(from))).isEmpty(), from);
    String[] allowed = packages((from + " " + to).trim().split(" "));
    holds(
        noClasses()
            .that()
            .resideInAnyPackage(packages(from))
            .should()
            .dependOnClassesThat(
                resideInAnyPackage("limnostat..")
                    .and(describe("but " + to, c -> !resideInAnyPackage(allowed).test(c)))));
  }

  @Test
  void pureCodeReachesNothingOutside() {
    holds(
        classes()
            .that()
            .resideInAnyPackage(PURE)
            .should()
            .onlyDependOnClassesThat()
            .resideInAnyPackage(
                join(
                    PURE,
                    "java.lang",
                    "java.lang.runtime",
                    "java.math",
                    "java.lang.invoke",
                    "java.util",
                    "java.util.function",
                    "java.util.stream",
                    "java.time..")));
    holds(
        noClasses()
            .that()
            .resideInAnyPackage(PURE)
            .should()
            .dependOnClassesThat(
                describe(
                    "clocks, threads, processes or chance",
                    c ->
                        Set.of(
                                "java.lang.Thread",
                                "java.lang.Runtime",
                                "java.lang.Process",
                                "java.lang.ProcessBuilder",
                                "java.lang.ThreadLocal",
                                "java.util.Random",
                                "java.util.SplittableRandom",
                                "java.util.UUID",
                                "java.util.Timer",
                                "java.util.Date",
                                "java.util.Calendar",
                                "java.time.Clock")
                            .contains(c.getName()))));
    holds(
        noClasses()
            .that()
            .resideInAnyPackage(PURE)
            .should()
            .accessTargetWhere(
                describe(
                    "the present, or the machine's zone, settings or threads",
                    (JavaAccess<?> a) ->
                        (a.getTargetOwner().getName().startsWith("java.time.")
                                && Set.of("now", "systemDefault").contains(a.getName()))
                            || (a.getTargetOwner().getName().equals("java.lang.System")
                                && !a.getName().equals("arraycopy"))
                            || a.getName().equals("parallelStream"))));
  }

  @Test
  void pureCodeCalculatesTheSameOnEveryMachine() {
    holds(
        noClasses()
            .that()
            .resideInAnyPackage(PURE)
            .should()
            .accessTargetWhere(
                describe(
                    "Math where it is not exact: use StrictMath",
                    (JavaAccess<?> a) ->
                        a.getTargetOwner().getName().equals("java.lang.Math")
                            && !EXACT.contains(a.getName()))));
  }

  @ParameterizedTest
  @CsvSource({
    "field.board, com.pi4j..",
    "mqtt, org.eclipse.paho..",
    "ledger, java.sql..",
    "ledger, org.sqlite..",
    "config, org.tomlj.."
  })
  void onlyOneUses(String inside, String library) {
    only(library, packages(inside));
  }

  @Test
  void onlyTheWireTheReportsOfSeasonsAndTheCommandsWriteJson() {
    only("com.fasterxml.jackson..", packages("wire", "season", "faults", "cli"));
  }

  @Test
  void onlyWhatSpeaksToOthersUsesTheWireAndNothingUsesTheCommands() {
    only("limnostat.wire..", packages("wire", "daemon", "bench", "cli"));
    only("limnostat.cli..", packages("cli"));
  }

  @Test
  void noCycles() {
    holds(slices().matching("limnostat.(*)..").should().beFreeOfCycles());
  }

  private static void only(String library, String... inside) {
    assertFalse(
        OURS.stream()
            .flatMap(c -> c.getDirectDependenciesFromSelf().stream())
            .noneMatch(d -> resideInAnyPackage(library).test(d.getTargetClass())),
        () -> "nothing uses " + library + ": the rule checks nothing");
    holds(
        noClasses()
            .that()
            .resideOutsideOfPackages(inside)
            .should()
            .dependOnClassesThat()
            .resideInAPackage(library));
  }

  private static void holds(ArchRule rule) {
    rule.check(OURS);
  }

  private static String[] packages(String... names) {
    return Arrays.stream(names).map(name -> "limnostat." + name + "..").toArray(String[]::new);
  }

  private static String[] join(String[] some, String... others) {
    return Stream.concat(Arrays.stream(some), Arrays.stream(others)).toArray(String[]::new);
  }
}
