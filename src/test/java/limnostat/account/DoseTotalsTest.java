package limnostat.account;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import limnostat.account.DoseTotals.Amounts;
import org.junit.jupiter.api.Test;

class DoseTotalsTest {
  private static DoseTotals begun(boolean trusted) {
    return DoseTotals.START.step(new Amounts(0, 0), 100, trusted, 0).totals();
  }

  @Test
  void aDayEndsWithTheLocalDateAndTheSeasonGoesOn() {
    DoseTotals day = begun(true).step(new Amounts(40, 100), 100, true, 3600).totals();
    assertEquals(new Amounts(40, 100), day.day());
    DoseTotals.Step next = day.step(new Amounts(41, 100), 101, true, 1);
    assertTrue(next.ended());
    assertEquals(new Amounts(1, 0), next.totals().day());
    assertEquals(new Amounts(41, 100), next.totals().season());
    assertTrue(next.totals().dated());
  }

  @Test
  void withoutATrustedClockADayIs24HoursOfRunningAndMarked() {
    DoseTotals day = begun(true);
    DoseTotals.Step later = day.step(new Amounts(1, 0), 500, false, 86_399);
    assertFalse(later.ended(), "a date that nobody believes");
    assertFalse(later.totals().dated());
    DoseTotals.Step ended = later.totals().step(new Amounts(2, 0), 500, false, 1);
    assertTrue(ended.ended());
    assertEquals(101, ended.totals().epochDay());
    DoseTotals.Step back = ended.totals().step(new Amounts(3, 0), 99, true, 1);
    assertFalse(back.ended(), "the same day under its right date");
    assertEquals(99, back.totals().epochDay());
    assertFalse(back.totals().dated());
  }

  /** What a crash leaves open counts: cumulative amounts jump, and both totals with them. */
  @Test
  void nothingIsLostWhateverTheClockDoes() {
    DoseTotals totals = begun(true);
    java.util.Random random = new java.util.Random(5);
    double given = 0;
    double ended = 0;
    for (int i = 0; i < 5000; i++) {
      given += random.nextInt(4);
      DoseTotals.Step step =
          totals.step(
              new Amounts(given, 0),
              100 + random.nextInt(i + 1) / 50,
              random.nextBoolean(),
              random.nextInt(4000));
      if (step.ended()) {
        ended += totals.day().chlorineG();
      }
      totals = step.totals();
      assertEquals(given, ended + totals.day().chlorineG(), 1e-9);
      assertEquals(given, totals.season().chlorineG(), 1e-9);
    }
  }
}
