package limnostat.wire;

import static org.junit.jupiter.api.Assertions.assertEquals;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import org.junit.jupiter.api.Test;

class HealthDocumentTest {
  /** Each figure under its own name: no two are alike. */
  @Test
  void hasWhatItIsTold() throws IOException {
    HealthDocument health =
        new HealthDocument(1000, 2, 5, 0.625, 0.875, 4, 3, true, 0.25, 7, 6, 8, 9);
    JsonNode json = new ObjectMapper().readTree(health.at(1_782_892_800));
    assertEquals(
        new ObjectMapper()
            .readTree(
                """
                {"time_unix_s": 1782892800, "scans": 1000, "late": 2, "overruns": 5,
                 "worst_lateness_s": 0.625, "worst_duration_s": 0.875, "ends_in_window": 4,
                 "orderly_ends_in_window": 3, "ledger_failing": true,
                 "ledger_worst_commit_s": 0.25, "mqtt_attempts": 7, "mqtt_dropped_events": 6,
                 "mqtt_waiting": 8, "mqtt_thinned_readings": 9}
                """),
        json);
  }
}
