package limnostat.field;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/** A simulated or replayed field must run without loading Pi4J. */
@Tag("slow")
class FieldDependencyTest {
  private final JavaClasses classes =
      new ClassFileImporter()
          .withImportOption(ImportOption.Predefined.DO_NOT_INCLUDE_TESTS)
          .importPackages("limnostat");

  @Test
  void onlyTheBoardUsesPi4j() {
    noClasses()
        .that()
        .resideOutsideOfPackage("limnostat.field.board..")
        .should()
        .dependOnClassesThat()
        .resideInAPackage("com.pi4j..")
        .check(classes);
  }

  @Test
  void thePortDoesNotKnowTheBoard() {
    noClasses()
        .that()
        .resideInAPackage("limnostat.field")
        .should()
        .dependOnClassesThat()
        .resideInAPackage("limnostat.field.board..")
        .check(classes);
  }
}
