package limnostat.season;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;

import java.util.Optional;
import limnostat.plant.Truth;
import org.junit.jupiter.api.Test;

class TallyTest {
  private static final double MIDNIGHT_UNIX_S = 1_780_264_800;
  private static final double HOUR_S = 3600;

  private static Truth truth(double unixTimeS, double freeMgL) {
    return new Truth(
        unixTimeS, freeMgL, freeMgL, 0, 0, 7.5, 25, 40, 90, 3500, 0, 0, 20, 0, 0, 0, 0, 0, 0, 0);
  }

  private static void hours(
      Tally tally, int from, int until, double freeMgL, Optional<Boolean> calls) {
    for (int hour = from; hour < until; hour++) {
      Truth at = truth(MIDNIGHT_UNIX_S + hour * HOUR_S, freeMgL);
      tally.passed(HOUR_S, at, false, false, Optional.empty(), calls);
    }
  }

  /** In band from 9 to 15 and below 1 mg/L from 15 to 21: half and half; the night counts not. */
  @Test
  void daytimeIsFromNineToTwentyOne() {
    Tally tally = new Tally(new Band(2.5, 4.5), MIDNIGHT_UNIX_S);
    hours(tally, 0, 9, 9, Optional.empty());
    hours(tally, 9, 15, 3, Optional.empty());
    hours(tally, 15, 21, 0.8, Optional.empty());
    hours(tally, 21, 24, 9, Optional.empty());
    Score score = tally.score();
    assertEquals(50, score.daytime().inBandPercent(), 1e-9);
    assertEquals(50, score.daytime().belowOnePercent(), 1e-9);
    assertEquals(25, score.inBandPercent(), 1e-9);
    assertNull(score.silentHours());
  }

  /**
   * An alarm ends the silence, and so does chlorine; what is called from the start is not silent.
   */
  @Test
  void silenceIsTheLongestStarvedTimeWithoutAlarm() {
    Tally tally = new Tally(new Band(2.5, 4.5), MIDNIGHT_UNIX_S);
    hours(tally, 0, 10, 0.1, Optional.of(false));
    hours(tally, 10, 60, 0.1, Optional.of(true));
    hours(tally, 60, 67, 0.1, Optional.of(false));
    hours(tally, 67, 68, 0.6, Optional.of(false));
    hours(tally, 68, 75, 0.1, Optional.of(false));
    assertEquals(10, tally.score().silentHours(), 1e-9);
  }
}
