package limnostat.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import limnostat.water.ChlorineForm;
import org.junit.jupiter.api.Test;

class FeedWorthTest {
  private static EstimateSettings pool(ChlorineForm form) {
    return new EstimateSettings(50, 46, 8, SlowSettings.told(30, 3400, form, 1), 2, 3);
  }

  /** Little stabiliser: the sun takes 2/day at a shape of 1; much of it: 0.1/day. */
  private static final Outlook BARE = new Outlook(3, 0.3, 0.31, 2, 1);

  private static final Outlook SHIELDED = new Outlook(3, 0.3, 0.31, 0.1, 1);

  @Test
  void unstabilisedChlorineIsWorthMostInTheDark() {
    EstimateSettings liquid = pool(ChlorineForm.LIQUID);
    assertEquals(1, FeedWorth.of(liquid, BARE, 3, 0));
    // (0.3 + 0.31/3.1)/(0.4 + 2 × 2.5)
    assertEquals(0.4 / 5.4, FeedWorth.of(liquid, BARE, 3, 2.5), 1e-12);
    double before = 1;
    for (double shape = 0.1; shape < 3; shape += 0.1) {
      double worth = FeedWorth.of(liquid, BARE, 3, shape);
      assertTrue(worth < before && worth > 0, "at " + shape);
      assertTrue(worth < FeedWorth.of(liquid, SHIELDED, 3, shape), "a shield makes it matter less");
      before = worth;
    }
  }

  @Test
  void aCellAndStabilisedTabletsTakeAnyHour() {
    assertEquals(1, FeedWorth.of(pool(ChlorineForm.SALT_CELL), BARE, 3, 2.5));
    assertEquals(1, FeedWorth.of(pool(ChlorineForm.TRICHLOR), BARE, 3, 2.5));
    assertTrue(FeedWorth.of(pool(ChlorineForm.CALCIUM_HYPOCHLORITE), BARE, 3, 2.5) < 0.5);
  }

  @Test
  void aPoolThatLosesNothingHasNoBetterHour() {
    assertEquals(1, FeedWorth.of(pool(ChlorineForm.LIQUID), new Outlook(3, 0, 0, 0, 1), 3, 2.5));
  }
}
