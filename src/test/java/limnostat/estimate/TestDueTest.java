package limnostat.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.OptionalDouble;
import limnostat.water.ChlorineForm;
import org.junit.jupiter.api.Test;

class TestDueTest {
  private static final OptionalDouble NONE = OptionalDouble.empty();

  private TestLog tests = TestLog.START;
  private SlowAccount slow = account(OptionalDouble.of(40));

  private static SlowAccount account(OptionalDouble cyanuricAcidMgL) {
    return SlowAccount.start(
        new SlowSettings(cyanuricAcidMgL, OptionalDouble.of(3400), ChlorineForm.SALT_CELL, 1));
  }

  private TestDue after(double sdFraction, double days) {
    tests = tests.aged(sdFraction, slow, 86_400 * days);
    return tests.due();
  }

  private void tested(double freeChlorineMgL) {
    tests = tests.with(TestVerdict.BELIEVED, new TestVerdict.Reading(freeChlorineMgL, 3, 0.4));
  }

  private void stabiliserTested() {
    tests = tests.with(WaterTest.EMPTY.with(Tested.CYANURIC_ACID, 40));
  }

  @Test
  void aNewInstallationIsAskedForATestAfterTwoDays() {
    assertEquals(TestDue.NONE, after(0.5, 1.9));
    assertEquals(TestDue.UNCERTAIN, after(0.5, 0.2));
  }

  @Test
  void freeChlorineIsAskedForWhenItIsUncertainAndTheTestNotYoung() {
    tested(3);
    stabiliserTested();
    assertEquals(TestDue.NONE, after(0.16, 4.9), "young");
    assertEquals(TestDue.NONE, after(0.14, 0.2), "known well");
    assertEquals(TestDue.UNCERTAIN, after(0.16, 0.2));
    assertEquals(TestDue.UNCERTAIN, after(0.14, 1), "asked for is asked for");
    tested(3);
    assertEquals(TestDue.NONE, after(0.12, 0));
    assertEquals(TestDue.NONE, after(0.4, 1.9));
    assertEquals(TestDue.UNCERTAIN, after(0.4, 0.2), "too unsure to plan by");
  }

  @Test
  void stabiliserIsAskedForWhenItWasNeverTestedOrIsNotKnownWell() {
    tested(3);
    assertEquals(TestDue.NONE, after(0.1, 6.9));
    assertEquals(TestDue.STABILISER, after(0.1, 0.2));
    stabiliserTested();
    assertEquals(TestDue.NONE, after(0.1, 400), "known well, however long ago");
    slow = account(NONE);
    assertEquals(TestDue.STABILISER, after(0.1, 0), "known by nobody");
    tested(3);
    assertEquals(TestDue.STABILISER, after(0.1, 0), "free chlorine is no stabiliser");
  }

  @Test
  void aDoubtedTestIsAskedForAgainBeforeAllElse() {
    tests =
        tests.with(TestVerdict.DOUBTED, new TestVerdict.Reading(9, 3, 0.5)).aged(0.5, slow, 4e6);
    assertEquals(TestDue.CONTRADICTED, tests.due());
    assertEquals(TestDue.CONTRADICTED, after(0.1, 30), "until another is made");
    tested(3);
    assertEquals(TestDue.NONE, tests.due());
  }
}
