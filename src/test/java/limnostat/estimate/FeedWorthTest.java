package limnostat.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import limnostat.water.ChlorineForm;
import org.junit.jupiter.api.Test;

class FeedWorthTest {
  private static EstimateSettings pool(ChlorineForm form) {
    return new EstimateSettings(50, 46, 8, SlowSettings.told(30, 3400, form, 1), 2, 3);
  }

  /** At 3 mg/L, now, with the mean of people, who take nothing here. */
  private static double worth(EstimateSettings pool, Outlook outlook, double sunShape) {
    return FeedWorth.of(pool, outlook, 3, new Hour(sunShape, 1), 0);
  }

  /** Little stabiliser: the sun takes 2/day at a shape of 1; much of it: 0.1/day. */
  private static final Outlook BARE = new Outlook(3, 0.3, 0.31, 0, 2, 0, 1);

  private static final Outlook SHIELDED = new Outlook(3, 0.3, 0.31, 0, 0.1, 0, 1);

  @Test
  void unstabilisedChlorineIsWorthMostInTheDark() {
    EstimateSettings liquid = pool(ChlorineForm.LIQUID);
    assertEquals(1, worth(liquid, BARE, 0));
    // (0.3 + 0.31/3.1)/(0.4 + 2 × 2.5)
    assertEquals(0.4 / 5.4, worth(liquid, BARE, 2.5), 1e-12);
    double before = 1;
    for (double shape = 0.1; shape < 3; shape += 0.1) {
      double worth = worth(liquid, BARE, shape);
      assertTrue(worth < before && worth > 0, "at " + shape);
      assertTrue(worth < worth(liquid, SHIELDED, shape), "a shield makes it matter less");
      before = worth;
    }
  }

  @Test
  void aCellAndStabilisedTabletsTakeAnyHour() {
    assertEquals(1, worth(pool(ChlorineForm.SALT_CELL), BARE, 2.5));
    assertEquals(1, worth(pool(ChlorineForm.TRICHLOR), BARE, 2.5));
    assertTrue(worth(pool(ChlorineForm.CALCIUM_HYPOCHLORITE), BARE, 2.5) < 0.5);
  }

  @Test
  void aPoolThatLosesNothingHasNoBetterHour() {
    assertEquals(1, worth(pool(ChlorineForm.LIQUID), new Outlook(3, 0, 0, 0, 0, 0, 1), 2.5));
  }
}
