package limnostat.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class UnfedChlorineTest {
  /** Above by more than 1 mg/L, and by more than three deviations. */
  @ParameterizedTest
  @CsvSource({
    "5, 2, 0.5, true",
    "5, 2, 1.0, false",
    "3.4, 2, 0.45, true",
    "3.3, 2, 0.45, false",
    "3, 2, 0.1, false",
    "3.1, 2, 0.1, true",
    "0, 5, 0.1, false",
    "2, 2, 0, false"
  })
  void aTestFarAboveWhatWasFedIsAsked(
      double readMgL, double expectedMgL, double sdMgL, boolean suspected) {
    assertEquals(suspected, UnfedChlorine.suspected(readMgL, expectedMgL, sdMgL));
  }

  @Test
  void nobodyIsAskedForLongerThanPeopleRemember() {
    assertFalse(UnfedChlorine.NONE.standing());
    UnfedChlorine asked = new UnfedChlorine(5, 2, 0.5, 0);
    assertTrue(asked.standing());
    assertTrue(asked.aged(3 * 86_400 - 1).standing());
    assertFalse(asked.aged(3 * 86_400 + 1).standing());
    assertThrows(IllegalArgumentException.class, () -> new UnfedChlorine(5, 2, 0.5, -1));
  }
}
