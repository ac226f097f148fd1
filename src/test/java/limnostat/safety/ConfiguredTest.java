package limnostat.safety;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

class ConfiguredTest {
  private static final Map<String, String> BEFORE =
      Map.of("limits.orp_high", "800 mV", "pool.volume", "50 m3", "acid.rate", "1.5 L/h");

  @Test
  void theFirstConfigurationIsNoChange() {
    assertFalse(Configured.UNKNOWN.configuredBy(BEFORE).changed());
    assertEquals(BEFORE, Configured.UNKNOWN.configuredBy(BEFORE).options());
  }

  @Test
  void whatWasChangedIsToldForADayAndOverARestart() {
    Map<String, String> after = Map.of("limits.orp_high", "780 mV", "pool.volume", "50 m3");
    Configured changed =
        Configured.UNKNOWN.configuredBy(BEFORE).configuredBy(BEFORE).configuredBy(after);
    assertEquals(
        List.of("acid.rate from 1.5 L/h to none", "limits.orp_high from 800 mV to 780 mV"),
        changed.changes());
    Configured later = changed.passed(86_399);
    assertTrue(later.changed());
    assertEquals(later, later.configuredBy(after), "a restart on the same file");
    Configured over = later.passed(1);
    assertFalse(over.changed());
    assertEquals(List.of(), over.changes());
    assertEquals(after, over.options());
  }
}
