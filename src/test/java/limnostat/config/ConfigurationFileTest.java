package limnostat.config;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.time.ZoneId;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import limnostat.account.DoseCaps;
import limnostat.actuate.OutputSettings;
import limnostat.actuate.OutputSettings.Drive;
import limnostat.config.FieldSettings.Board;
import limnostat.control.ControlSettings;
import limnostat.control.ControlSettings.PumpWindow;
import limnostat.estimate.EstimateSettings;
import limnostat.estimate.SlowSettings;
import limnostat.estimate.TestKit;
import limnostat.measure.CalibrationAge;
import limnostat.measure.FlowSensor;
import limnostat.measure.MeasureSettings;
import limnostat.measure.ProbeSettings;
import limnostat.measure.PumpSign;
import limnostat.measure.Role;
import limnostat.safety.ProcessLimits;
import limnostat.safety.SafetyLimits;
import limnostat.scan.ScanSettings.Channel;
import limnostat.water.ChlorineForm;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ConfigurationFileTest {
  @TempDir Path folder;

  private Configuration load(String text) throws ConfigurationException {
    return Sample.load(folder, text).configuration();
  }

  /** Every value lands in its field, in the program's unit. */
  @Test
  void fillsTheRecords() throws ConfigurationException {
    Configuration configuration = load(Sample.MINIMAL);
    assertEquals("garden", configuration.siteId());
    assertEquals(1, configuration.periodS());
    assertEquals(new FieldSettings.Simulated(1), configuration.field());
    assertEquals(
        new EstimateSettings(
            50,
            50,
            10,
            new SlowSettings(
                OptionalDouble.empty(), OptionalDouble.empty(), ChlorineForm.SALT_CELL, 1),
            2,
            3),
        configuration.scan().estimate());
    assertEquals(
        new SafetyLimits(800, 5, 10, 6.8, 8, 10, 40, 60, 300, 5), configuration.scan().limits());
    assertEquals(ZoneId.of("Europe/Berlin"), configuration.scan().control().zone());
    assertEquals(
        new OutputSettings(Drive.RELAY, 600, 60, 60, 14400, 300),
        configuration.scan().chlorine().output());
    assertEquals(new DoseCaps(20, 20, 160, 1), configuration.scan().chlorine().caps());
    assertEquals(Channel.NONE, configuration.scan().acid());
    assertEquals(
        new ProbeSettings(100, 1000, 5, 0.05, 3600, 60), configuration.scan().measure().orp());
    assertEquals(
        new ProbeSettings(4, 10, 0.05, 0.0005, 3600, 60), configuration.scan().measure().ph());
    assertEquals(
        new ProbeSettings(-2, 50, 0.2, 0.01, 0, 60), configuration.scan().measure().water());
    assertEquals(180, configuration.scan().measure().freshWaterS());
    assertEquals(new FlowSensor.Switch(), configuration.scan().measure().flow());
    assertEquals(
        Set.of(Role.ORP_MV, Role.PH_MV, Role.WATER_C, Role.FLOW),
        configuration.scan().measure().fitted());
    assertEquals(
        new LedgerSettings(folder.resolve("limnostat.db"), 60, 400), configuration.ledger());
    assertEquals(
        new MqttSettings(
            true,
            "localhost",
            1883,
            false,
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            "limnostat"),
        configuration.mqtt());
  }

  /** An upgrade is not to stop a plant for a line that was right until then. */
  @Test
  void retiredOptionsDoNothingAndAreTold() throws ConfigurationException {
    String text =
        Sample.edit(Sample.MINIMAL, "[pump]", "fallback = \"24 h\"\n[pump]")
            + "[control]\ngain = \"whatever it was\"\nintegral_time = \"12 h\"\n";
    ConfigurationFile file = Sample.load(folder, text);
    assertEquals(
        List.of("limits.fallback 11", "control.gain 22", "control.integral_time 23"),
        file.notices().stream().map(n -> n.key() + " " + n.line()).toList());
    for (Notice notice : file.notices()) {
      assertTrue(notice.render().contains("has no effect any more"), notice::render);
    }
    assertTrue(file.notices().get(0).text().contains("limits.blind_feed"));
    assertEquals(load(Sample.MINIMAL), file.configuration());
    assertEquals(List.of(), Sample.load(folder, Sample.MINIMAL).notices());
    assertTrue(
        ConfigurationReport.warnings(file).stream().anyMatch(w -> w.startsWith("limits.fallback")));
  }

  /** The budget leaves a pool at its high limit below what a bathing code lets it reach. */
  @Test
  void theBlindBudgetFollowsTheHighLimitWhereItIsNotConfigured() throws ConfigurationException {
    String high = Sample.edit(Sample.MINIMAL, "[pump]", "free_chlorine_high = \"7 mg/L\"\n[pump]");
    assertEquals(3, load(high).scan().limits().blindFeedMgL());
    String told = Sample.edit(Sample.MINIMAL, "[pump]", "blind_feed = \"0.8 mg/L\"\n[pump]");
    assertEquals(0.8, load(told).scan().limits().blindFeedMgL());
  }

  @Test
  void theBathingHoursReachTheControlLaw() throws ConfigurationException {
    assertEquals(ControlSettings.USUAL_BATHING, load(Sample.MINIMAL).scan().control().bathing());
    String told = Sample.MINIMAL + "[target]\nhours = [\"07:30-09:00\", \"18:00-20:00\"]\n";
    ControlSettings control = load(told).scan().control();
    assertEquals(
        List.of(new PumpWindow(7 * 3600 + 1800, 9 * 3600), new PumpWindow(18 * 3600, 20 * 3600)),
        control.bathing());
    double eightUtc = 1_782_892_800; // 2026-07-01T08:00:00Z, 10:00 in Berlin
    assertTrue(!control.bathing(eightUtc) && control.bathing(eightUtc - 2 * 3600));
  }

  @Test
  void readsUsUnits() throws ConfigurationException {
    String text = Sample.edit(Sample.MINIMAL, "\"50 m3\"", "\"13200 gal\"");
    text = Sample.edit(text, "\"160 g\"", "\"0.3 lb\"\nwater_min = \"50 degF\"");
    text = Sample.edit(text, "\"20 g/h\"", "\"1.2 lb/day\"");
    text += "[thermometer]\nrate_max = \"1.8 degF\"\nfallback = \"77 degF\"\n";
    Configuration configuration = load(text);
    // 13200 × 3.785411784 L; 0.3 × 453.59237 g; 1.2 × 453.59237 / 24 g/h
    assertEquals(49.9674355488, configuration.scan().estimate().volumeM3(), 1e-9);
    assertEquals(136.077711, configuration.scan().chlorine().caps().dayCap(), 1e-9);
    assertEquals(22.6796185, configuration.scan().chlorine().caps().ratePerH(), 1e-9);
    assertEquals(10, configuration.scan().limits().waterMinC(), 1e-12);
    assertEquals(25, configuration.scan().measure().waterFallbackC(), 1e-12);
    assertEquals(1, configuration.scan().measure().water().rateMaxPerS(), 1e-12);
  }

  /** Trade percent is g in 100 mL: 1 L/h at 12.5 % is 125 g/h (water-chemistry 9). */
  @Test
  void aLiquidGivesRateTimesStrength() throws ConfigurationException {
    String text = Sample.edit(Sample.MINIMAL, "salt_cell", "liquid");
    text = Sample.edit(text, "output = \"20 g/h\"", "rate = \"1 L/h\"\nstrength = 12.5");
    assertEquals(125, load(text).scan().chlorine().caps().ratePerH(), 1e-12);
  }

  /** What comes with the chlorine follows from its source. */
  @Test
  void aSourceHasItsForm() throws ConfigurationException {
    assertEquals(ChlorineForm.SALT_CELL, load(Sample.MINIMAL).scan().estimate().slow().form());
    String liquid = Sample.edit(Sample.MINIMAL, "salt_cell", "liquid");
    assertEquals(ChlorineForm.LIQUID, load(liquid).scan().estimate().slow().form());
    for (ChlorineForm form : List.of(ChlorineForm.TRICHLOR, ChlorineForm.CALCIUM_HYPOCHLORITE)) {
      String tablets =
          Sample.edit(
              Sample.MINIMAL,
              "\"salt_cell\"",
              "\"tablet\"\ntablet = \"" + form.name().toLowerCase(Locale.ROOT) + "\"");
      assertEquals(form, load(tablets).scan().estimate().slow().form());
    }
  }

  @Test
  void whatChangesOverWeeksIsToldOrNot() throws ConfigurationException {
    String text =
        Sample.edit(
            Sample.MINIMAL,
            "\"50 m3\"",
            "\"50 m3\"\ncyanuric_acid = \"45 ppm\"\nsalt = \"3000 mg/L\"\n"
                + "make_up_week = \"500 L\"");
    assertEquals(
        SlowSettings.configured(45, 3000, ChlorineForm.SALT_CELL, 0.5),
        load(text).scan().estimate().slow());
  }

  @Test
  void acidIsInMillilitres() throws ConfigurationException {
    String text =
        Sample.edit(
                Sample.MINIMAL,
                "\"160 g\"",
                "\"160 g\"\nacid_hour = \"0.2 L\"\nacid_day = \"600 mL\"")
            + "[acid]\nrate = \"1.5 L/h\"\n";
    assertEquals(new DoseCaps(1500, 200, 600, 10), load(text).scan().acid().caps());
  }

  @Test
  void limitsOfTheProcessLandInTheirPlaces() throws ConfigurationException {
    assertEquals(ProcessLimits.USUAL, load(Sample.MINIMAL).scan().limits().process());
    String low = Sample.edit(Sample.MINIMAL, "[pump]", "free_chlorine_high = \"4 mg/L\"\n[pump]");
    assertEquals(3.2, load(low).scan().limits().process().noResponseMgL(), 1e-12);
    String told =
        Sample.edit(
                Sample.edit(
                    Sample.MINIMAL,
                    "[pump]",
                    "no_response = \"3 mg/L\"\ncell_current_max = \"12 A\"\n"
                        + "test_overdue = \"7 d\"\n[pump]"),
                "[field]",
                "cell_current = \"6500 mA\"\n[field]")
            + "[inputs]\nfitted = [\"cell_a\"]\n";
    assertEquals(
        new ProcessLimits(3, OptionalDouble.of(12), OptionalDouble.of(6.5), 7 * 86_400),
        load(told).scan().limits().process());
  }

  @Test
  void theOwnersKitLandsInTheEstimate() throws ConfigurationException {
    assertEquals(TestKit.UNSPECIFIED, load(Sample.MINIMAL).scan().estimate().kit());
    for (TestKit kit : TestKit.NAMED) {
      String text = Sample.MINIMAL + "[test]\nkit = \"" + kit.key() + "\"\n";
      assertEquals(kit, load(text).scan().estimate().kit());
    }
    assertEquals(TestKit.NAMED.size(), Options.Kit.values().length);
  }

  /** What a restart compares: of broker and ledger what may be commanded. */
  @Test
  void optionsOfControlAreToldAsPeopleWriteThem() throws ConfigurationException {
    Map<String, String> options = Sample.load(folder, Sample.MINIMAL).controlling();
    assertEquals("800 mV", options.get("limits.orp_high"));
    assertEquals("50 m3", options.get("pool.volume"));
    assertEquals(
        List.of("mqtt.allow"),
        options.keySet().stream()
            .filter(p -> p.startsWith("mqtt") || p.startsWith("ledger"))
            .toList());
    assertTrue(options.size() > 50, options.size() + " options");
  }

  @Test
  void windowsMayRunOverMidnightAndToItsEnd() throws ConfigurationException {
    String text =
        Sample.edit(
            Sample.MINIMAL,
            "[\"09:00-17:00\"]",
            "[\"22:30-06:00\", \"06:00-07:00\", \"12:00-22:30\"]");
    assertEquals(
        List.of(
            new PumpWindow(81000, 21600),
            new PumpWindow(21600, 25200),
            new PumpWindow(43200, 81000)),
        load(text).scan().control().pumpWindows());
    String evening = Sample.edit(Sample.MINIMAL, "09:00-17:00", "14:00-24:00");
    assertEquals(
        List.of(new PumpWindow(50400, 86400)), load(evening).scan().control().pumpWindows());
    String always = Sample.edit(Sample.MINIMAL, "\"09:00-17:00\"", "");
    assertEquals(List.of(), load(always).scan().control().pumpWindows());
  }

  @Test
  void aMeterCountsPulses() throws ConfigurationException {
    String text =
        Sample.edit(
                Sample.MINIMAL_BOARD,
                "[board.contact.flow]\nline = 17",
                "[board.pulses]\nline = 17\nper_litre = 11")
            + "[flow]\nsensor = \"meter\"\nminimum = \"6 m3/h\"\n";
    Configuration configuration = load(text);
    assertEquals(new FlowSensor.Meter(100, 20_000), configuration.scan().measure().flow());
    Board board = assertInstanceOf(Board.class, configuration.field());
    assertEquals(Optional.of(new FieldSettings.PulseIn(17, 11)), board.pulses());
    assertTrue(board.contacts().isEmpty());
  }

  /** 0.0625 mV a code at 2048 mV; a dead input flickers by one. S(25 °C) = 59.159 mV a pH unit. */
  @Test
  void theConvertersOwnFlickerIsNoLife() throws ConfigurationException {
    MeasureSettings board = load(Sample.MINIMAL_BOARD).scan().measure();
    assertEquals(1.5 * 0.0625, board.orp().freezeBand(), 1e-12);
    assertEquals(1.5 * 0.0625 / 59.159, board.ph().freezeBand(), 1e-6);
    assertEquals(0.05, load(Sample.MINIMAL).scan().measure().orp().freezeBand());
    String gain = Sample.edit(Sample.MINIMAL_BOARD, "channel = 0\n", "channel = 0\ngain = 2\n");
    assertEquals(0.05, load(gain).scan().measure().orp().freezeBand());
  }

  @Test
  void whatTellsOfThePump() throws ConfigurationException {
    assertEquals(PumpSign.NONE, load(Sample.MINIMAL).scan().measure().pumpSign());
    String contact = Sample.MINIMAL + "[inputs]\nfitted = [\"pump_on\"]\n";
    assertEquals(PumpSign.CONTACT, load(contact).scan().measure().pumpSign());
    assertEquals(
        PumpSign.NONE,
        load(contact + "[flow]\nstops_with_pump = false\n").scan().measure().pumpSign());
    assertEquals(PumpSign.NONE, load(Sample.MINIMAL_BOARD).scan().measure().pumpSign());
    String relay = Sample.MINIMAL_BOARD + "[board.relay.pump]\nline = 25\nactive = \"high\"\n";
    assertEquals(PumpSign.REQUEST, load(relay).scan().measure().pumpSign());
  }

  @Test
  void aCalibrationsDayIsOneOfTheZone() throws ConfigurationException {
    MeasureSettings none = load(Sample.MINIMAL).scan().measure();
    assertEquals(new CalibrationAge(OptionalDouble.empty(), 180 * 86_400), none.orpCalibrated());
    assertEquals(new CalibrationAge(OptionalDouble.empty(), 90 * 86_400), none.phCalibrated());
    // 2026-05-01T00:00 in Berlin is 2026-04-30T22:00Z.
    for (String day : List.of("2026-05-01", "\"2026-05-01\"")) {
      String text =
          Sample.MINIMAL
              + "[ph]\ncalibrated = "
              + day
              + "\ncalibrate_every = \"30 d\"\n[orp]\ncalibrated = "
              + day
              + "\n";
      MeasureSettings told = load(text).scan().measure();
      assertEquals(
          new CalibrationAge(OptionalDouble.of(1_777_586_400), 30 * 86_400), told.phCalibrated());
      assertEquals(
          new CalibrationAge(OptionalDouble.of(1_777_586_400), 180 * 86_400), told.orpCalibrated());
    }
  }

  @Test
  void pathsAreMeantFromTheFilesFolder() throws ConfigurationException {
    String text =
        Sample.edit(Sample.MINIMAL, "\"limnostat.db\"", "\"/var/lib/limnostat/l.db\"")
            + "[mqtt]\ntls = true\nca_file = \"tls/ca.pem\"\nuser = \"u\"\n"
            + "password_file = \"pw\"\n";
    Configuration configuration = load(text);
    assertEquals(Path.of("/var/lib/limnostat/l.db"), configuration.ledger().file());
    assertEquals(Optional.of(folder.resolve("tls/ca.pem")), configuration.mqtt().caFile());
    assertEquals(Optional.of(folder.resolve("pw")), configuration.mqtt().passwordFile());
    assertEquals(8883, configuration.mqtt().port(), "the port of tls");
  }

  /** A wiring example may stay in the file while the pool is simulated; it is checked as well. */
  @Test
  void aBoardMayBeThereUnused() throws ConfigurationException {
    String text = Sample.edit(Sample.MINIMAL_BOARD, "\"board\"", "\"simulated\"");
    assertInstanceOf(FieldSettings.Simulated.class, load(text).field());
    assertEquals(1, Sample.faults(folder, Sample.edit(text, "line = 23", "line = 17")).size());
  }

  @Test
  void integersServeAsPlainNumbers() throws ConfigurationException {
    String text = Sample.MINIMAL + "[target]\nph = 7\n[orp]\nrange_max = \"1.05 V\"\n";
    assertEquals(7, load(text).scan().control().phTarget());
    assertEquals(1050, load(text).scan().measure().orp().rangeMax());
  }
}
