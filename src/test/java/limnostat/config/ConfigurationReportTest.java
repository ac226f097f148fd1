package limnostat.config;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import limnostat.config.ConfigurationReport.Connection;
import limnostat.config.ConfigurationReport.Limit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ConfigurationReportTest {
  @TempDir Path folder;

  private ConfigurationReport report(String text) throws ConfigurationException {
    return ConfigurationReport.of(Sample.load(folder, text));
  }

  @Test
  void tellsWhereEachValueComesFrom() throws ConfigurationException {
    List<String> lines = report(Sample.edit(Sample.MINIMAL, "\"50 m3\"", "\"13200 gal\"")).lines();
    assertTrue(lines.contains("[pool]"));
    assertTrue(lines.contains("  volume = 49.9674355 m3"), lines.toString());
    assertTrue(lines.contains("  daily_demand = 2 mg/L  (default)"));
    assertTrue(lines.contains("  block: none (a twentieth of limits.chlorine_hour)"));
    assertTrue(lines.contains("  windows = [\"09:00-17:00\"]"));
    assertFalse(lines.contains("[acid]"), "a table that is not there");
  }

  @Test
  void listsEveryOptionOfTheTables() throws ConfigurationException {
    List<EffectiveOption> options = report(Sample.shippedBoard()).options();
    long declared =
        Options.ALL.stream()
            .filter(
                option ->
                    !option
                        .table()
                        .matches(
                            "board\\.(analog\\.(cell_a|cell_v|solar_w_m2)|pulses|contact\\.(?!flow).*)"))
            .count();
    assertEquals(declared, options.size());
    assertTrue(options.stream().noneMatch(option -> option.value().isEmpty()));
  }

  @Test
  void listsTheWiring() throws ConfigurationException {
    assertEquals(
        List.of(
            new Connection(
                "orp_mv",
                "in",
                "converter",
                "I2C bus 1 address 0x48 channel 0",
                "zero 0 mV, gain 1, full scale 2048 mV"),
            new Connection(
                "ph_mv",
                "in",
                "converter",
                "I2C bus 1 address 0x48 channel 1",
                "zero 1024 mV, gain 1, full scale 2048 mV"),
            new Connection("water_c", "in", "1-wire", "28-0123456789ab", ""),
            new Connection("flow", "in", "contact", "line 17", "active low, pull up"),
            new Connection("chlorine", "out", "relay", "line 23", "active high"),
            new Connection("acid", "out", "relay", "line 24", "active high"),
            new Connection("pump", "out", "relay", "line 25", "active high"),
            new Connection("heartbeat", "out", "line", "line 22", "changes each scan")),
        report(Sample.shippedBoard()).connections());
    assertEquals(
        List.of("orp_mv", "ph_mv", "water_c", "flow", "chlorine", "pump"),
        report(Sample.MINIMAL).connections().stream().map(Connection::role).toList());
  }

  @Test
  void putsTheHardBoundBesideEachLimit() throws ConfigurationException {
    List<Limit> limits = report(Sample.shipped()).limits();
    assertTrue(limits.contains(new Limit("limits.orp_high", "800 mV", "at most 900 mV")));
    assertTrue(limits.contains(new Limit("limits.ph_dosing_min", "6.8", "at least 6.5")));
    assertTrue(limits.contains(new Limit("limits.water_min", "10 degC", "")));
    // 5 and 20 g/m³ and 20 mL/m³ of 50 m³
    assertTrue(limits.contains(new Limit("limits.chlorine_hour", "20 g", "at most 250 g")));
    assertTrue(limits.contains(new Limit("limits.chlorine_day", "160 g", "at most 1000 g")));
    assertTrue(limits.contains(new Limit("limits.acid_day", "600 mL", "at most 1000 mL")));
  }

  @Test
  void warnsWhereAFlowSwitchThatSticksCannotBeFoundOut() throws ConfigurationException {
    String bare = Sample.MINIMAL_BOARD;
    List<String> warnings = ConfigurationReport.warnings(Sample.load(folder, bare));
    assertEquals(1, warnings.size());
    assertTrue(
        warnings
            .get(0)
            .startsWith("nothing tells when the pump rests, so a flow sensor that sticks"));
    for (String sound :
        List.of(
            Sample.MINIMAL,
            bare + "[flow]\nstops_with_pump = false\n",
            bare + "[board.relay.pump]\nline = 25\nactive = \"high\"\n")) {
      assertEquals(List.of(), ConfigurationReport.warnings(Sample.load(folder, sound)), sound);
    }
  }

  @Test
  void becomesJsonWithoutThePassword() throws Exception {
    Files.writeString(folder.resolve("pw"), "hunter\n");
    ConfigurationReport report =
        report(Sample.MINIMAL + "[mqtt]\nuser = \"u\"\npassword_file = \"pw\"\n");
    JsonNode json = new ObjectMapper().valueToTree(report);
    assertEquals("site", json.at("/options/0/table").asText());
    assertEquals("FILE", json.at("/options/0/origin").asText());
    assertEquals("orp_mv", json.at("/connections/0/role").asText());
    assertEquals("target.free_chlorine", json.at("/limits/0/key").asText());
    assertFalse((json + String.join("\n", report.lines())).contains("hunter"));
  }
}
