package limnostat.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Random;
import limnostat.config.Configuration;
import limnostat.config.ConfigurationFile;
import limnostat.ledger.Ledger;
import limnostat.measure.Signals;
import limnostat.safety.Cause;
import limnostat.scan.Scan;
import limnostat.scan.ScanInputs;
import limnostat.scan.ScanState;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.tinylog.Logger;

/**
 * S3 and S5 over a chain of processes that are killed at any moment while they feed: the account is
 * never below what the feeder gave, so no cap is passed, and each process begins with outputs off.
 */
@Timeout(180)
class KillIT {
  private static final double RATE_G_H = 20;

  @TempDir Path folder;

  /**
   * @param hourCapG cap of 60 minutes: one that lets most of a chain feed, one that its first
   *     process reaches
   * @param firstS time of the first process until its kill, s
   * @param fedMin least number of processes that fed
   */
  @ParameterizedTest
  @CsvSource({"20, 12, 2, 8, false", "4, 10, 15, 1, true"})
  void theAccountNeverFallsBehindTheFeeder(
      double hourCapG, int kills, int firstS, int fedMin, boolean caps) throws Exception {
    Path config =
        ConfigText.feedingSoon()
            .withoutBroker()
            .with("scan.period", "\"0.1 s\"") // 10 s of the hurried clock
            .with("limits.chlorine_hour", "\"" + hourCapG + " g\"")
            .write(folder);
    Configuration configuration = ConfigurationFile.load(config).configuration();
    assertEquals(hourCapG, configuration.scan().chlorine().caps().hourCap());
    assertEquals(RATE_G_H, configuration.scan().chlorine().caps().ratePerH());
    Path file = folder.resolve("feeder");
    FeederBook feeder = new FeederBook(file, RATE_G_H);
    Random random = new Random(20260701);
    int fed = 0;
    int capped = 0;
    for (int kill = 0; kill < kills; kill++) {
      try (Program process =
          Program.ofTests(FeedingProcess.class, config.toString(), file.toString())) {
        process.awaitLog("first scan done");
        Thread.sleep(kill == 0 ? 1000L * firstS : random.nextInt(2500));
        assertTrue(process.alive(), "it ended by itself: " + process.err());
        process.kill();
      }
      List<Double> levels = feeder.close(System.nanoTime());
      assertEquals(0, levels.get(0), "outputs are off on the first scan");
      fed += levels.contains(1.0) ? 1 : 0;

      ScanState state = restarted(configuration);
      double accountG = state.chlorine().account().given();
      String books = "kill " + kill + ": account " + accountG + ", fed " + feeder.totalG() + " g";
      assertTrue(accountG >= feeder.totalG(), books);
      assertTrue(feeder.mostG(3600) <= hourCapG, "most in 60 minutes: " + feeder.mostG(3600));
      capped += state.safety().active().contains(Cause.CHLORINE_HOUR_CAP) ? 1 : 0;
      LedgerFile.assertIntact(folder.resolve("limnostat.db"));
    }
    Logger.info(
        "{} kills, {} while feeding or after it; fed {} g, most in an hour {} g",
        kills,
        fed,
        feeder.totalG(),
        feeder.mostG(3600));
    assertTrue(fed >= fedMin, "fed in " + fed + " of the lives");
    assertTrue(!caps || capped > 0, "capped in " + capped + " of the lives");
    assertTrue(!caps || feeder.mostG(3600) > hourCapG / 2, "the cap was worth testing");
  }

  /** The state after the first scan of a process that would start now; nothing of it is kept. */
  private static ScanState restarted(Configuration configuration) throws Exception {
    try (Ledger ledger = Ledger.open(configuration.ledger())) {
      Clock clock = new HurriedClock();
      Resume resume =
          Resume.from(
              ledger.restored(), configuration.scan(), HurriedClock.boot(), clock.monotonicS());
      ScanInputs inputs =
          new ScanInputs(
              resume.outageS(),
              clock.unixTimeS(),
              true,
              Signals.of(Map.of()),
              ledger.booked().cumulativeAmounts(),
              false,
              true,
              List.of());
      return Scan.step(configuration.scan(), resume.state(), inputs).state();
    }
  }
}
