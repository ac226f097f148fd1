package limnostat.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import limnostat.account.DoseCaps;
import limnostat.config.Configuration;
import limnostat.config.ConfigurationFile;
import limnostat.ledger.Ledger;
import limnostat.measure.Signals;
import limnostat.safety.Cause;
import limnostat.scan.Scan;
import limnostat.scan.ScanInputs;
import limnostat.scan.ScanState;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.tinylog.Logger;

/**
 * S3 and S5 over chains of processes that are killed at any moment while they feed: the account is
 * never below what the feeder gave, so no cap is passed; no alarm is lost, the ledger stays whole,
 * and each process begins with outputs off. {@code -Dlimnostat.kills=1000} for more.
 */
@Timeout(3600)
class KillIT {
  private static final double RATE_G_H = 20;
  private static final int KILLS = Integer.getInteger("limnostat.kills", 200);

  @TempDir static Path folder;
  private static FastJvm jvm;

  @BeforeAll
  static void archive() throws Exception {
    Path warm = Files.createDirectory(folder.resolve("warm"));
    Path config = config(20, 160).write(warm);
    jvm =
        FastJvm.make(
            folder,
            FeedingProcess.class,
            config.toString(),
            warm.resolve("feeder").toString(),
            "stop");
  }

  private static ConfigText config(double hourCapG, double dayCapG) throws Exception {
    return ConfigText.feedingSoon()
        .withoutBroker()
        .with("scan.period", "\"0.1 s\"") // 10 s of the hurried clock
        .with("limits.chlorine_hour", "\"" + hourCapG + " g\"")
        .with("limits.chlorine_day", "\"" + dayCapG + " g\"")
        .with("chlorine.block", "\"0.1 g\"")
        // Or so low a cap of the day would be refused.
        .with("pool.daily_demand", "\"0.05 mg/L\"")
        // Two alarms that hold nothing, for the test to find again.
        .with("pool.cyanuric_acid", "\"120 mg/L\"")
        // The chain is a restart loop; here it may go on.
        .with("limits.restarts", "100")
        .with("limits.restart_window", "\"1 min\"");
  }

  /**
   * A chain of processes.
   *
   * @param firstS time of the first process until its kill, s
   */
  private record Chain(
      String name, long seed, int kills, double hourCapG, double dayCapG, int firstS) {}

  private record Result(int fed, int starting, Set<Cause> capped, FeederBook feeder) {}

  /** One chain that reaches both caps, and three that may always feed; two run at a time. */
  @Test
  void theAccountNeverFallsBehindTheFeeder() throws Exception {
    int capped = KILLS / 5;
    int free = (KILLS - capped) / 3;
    List<Chain> chains =
        List.of(
            new Chain("capped", 20260703, capped, 4, 4.8, 15),
            new Chain("free-1", 20260701, KILLS - capped - 2 * free, 250, 1000, 2),
            new Chain("free-2", 20260702, free, 250, 1000, 2),
            new Chain("free-3", 20260704, free, 250, 1000, 2));
    long beganNs = System.nanoTime();
    ExecutorService two = Executors.newFixedThreadPool(2);
    try {
      List<Future<Result>> results = new ArrayList<>();
      for (Chain chain : chains) {
        results.add(two.submit(() -> run(chain)));
      }
      int fed = 0;
      for (int i = 0; i < chains.size(); i++) {
        Chain chain = chains.get(i);
        Result result = results.get(i).get();
        fed += result.fed();
        Logger.info(
            "{}: {} kills, {} while starting, {} of lives that fed; fed {} g, most in an hour {} g,"
                + " capped by {}",
            chain.name(),
            chain.kills(),
            result.starting(),
            result.fed(),
            result.feeder().totalG(),
            result.feeder().mostG(3600),
            result.capped());
      }
      Logger.info("{} kills in {} s", KILLS, (System.nanoTime() - beganNs) / 1_000_000_000);
      assertTrue(fed >= KILLS / 3, "only " + fed + " of " + KILLS + " lives fed");
      Result last = results.get(0).get();
      assertTrue(last.capped().contains(Cause.CHLORINE_HOUR_CAP), "capped by " + last.capped());
      // The day's cap takes more than an hour of the chain's time.
      assertTrue(
          KILLS < 200 || last.capped().contains(Cause.CHLORINE_DAY_CAP),
          "capped by " + last.capped());
      assertTrue(last.feeder().mostG(3600) > 4 / 2.0, "the cap was worth testing");
    } finally {
      two.shutdownNow();
    }
  }

  private static Result run(Chain chain) throws Exception {
    Path at = Files.createDirectory(folder.resolve(chain.name()));
    Path config = config(chain.hourCapG(), chain.dayCapG()).write(at);
    Configuration configuration = ConfigurationFile.load(config).configuration();
    DoseCaps caps = configuration.scan().chlorine().caps();
    assertEquals(chain.hourCapG(), caps.hourCap());
    assertEquals(RATE_G_H, caps.ratePerH());
    Path file = at.resolve("feeder");
    Path ledger = at.resolve("limnostat.db");
    FeederBook feeder = new FeederBook(file, RATE_G_H);
    Random random = new Random(chain.seed());
    Set<Cause> capped = EnumSet.noneOf(Cause.class);
    Set<Cause> alarms = EnumSet.noneOf(Cause.class);
    int alarmRows = 0;
    int fed = 0;
    int starting = 0;
    for (int kill = 0; kill < chain.kills(); kill++) {
      boolean early = kill > 0 && random.nextInt(8) == 0;
      try (Program process = jvm.start(FeedingProcess.class, config.toString(), file.toString())) {
        if (!early) {
          process.awaitLog("first scan done");
        }
        Thread.sleep(kill == 0 ? 1000L * chain.firstS() : random.nextInt(700));
        assertTrue(process.alive(), "it ended by itself: " + process.err());
        process.kill();
      }
      String label = chain.name() + ", kill " + kill + ": ";
      List<Double> levels = feeder.close(System.nanoTime());
      starting += levels.isEmpty() ? 1 : 0;
      assertTrue(levels.isEmpty() || levels.get(0) == 0, label + "outputs off on the first scan");
      fed += levels.contains(1.0) ? 1 : 0;

      ScanState state = restarted(configuration);
      double accountG = state.chlorine().account().given();
      assertTrue(accountG >= feeder.totalG(), label + accountG + " for " + feeder.totalG() + " g");
      assertTrue(feeder.mostG(3600) <= chain.hourCapG(), label + "hour " + feeder.mostG(3600));
      assertTrue(feeder.mostG(86_400) <= chain.dayCapG(), label + "day " + feeder.mostG(86_400));
      assertFalse(state.safety().active().contains(Cause.RESTART_LOOP), label + "restart loop");
      capped.addAll(state.safety().active());
      capped.retainAll(Set.of(Cause.CHLORINE_HOUR_CAP, Cause.CHLORINE_DAY_CAP));

      // Nobody acknowledges, so what was once an alarm stays one.
      Set<Cause> now = state.alarms().keySet();
      assertTrue(now.containsAll(alarms), label + "alarms " + alarms + " became " + now);
      state
          .alarms()
          .forEach(
              (cause, entry) -> {
                if (entry.state() != limnostat.alarm.AlarmState.NORMAL) {
                  alarms.add(cause);
                }
              });
      LedgerFile.assertIntact(ledger);
      int rows =
          Integer.parseInt(
              LedgerFile.text(ledger, "SELECT count(*) FROM event WHERE kind = 'alarm'"));
      assertTrue(rows >= alarmRows, label + alarmRows + " rows of alarms became " + rows);
      alarmRows = rows;
    }
    assertTrue(alarms.contains(Cause.STABILISER_HIGH) && alarmRows >= 2, "alarms " + alarms);
    return new Result(fed, starting, capped, feeder);
  }

  /** A loop ends with the outputs held, and the hold with a calm time. */
  @Test
  void aRestartLoopEndsWithTheOutputsHeld() throws Exception {
    Path at = Files.createDirectory(folder.resolve("loop"));
    Path config =
        config(250, 1000)
            .with("limits.restarts", "2")
            .with("limits.restart_window", "\"25 min\"") // 15 s of the test's time
            .write(at);
    Path file = at.resolve("feeder");
    FeederBook feeder = new FeederBook(file, RATE_G_H);
    List<Boolean> fed = new ArrayList<>();
    boolean told = false;
    for (int kill = 0; kill < 4; kill++) {
      try (Program process = jvm.start(FeedingProcess.class, config.toString(), file.toString())) {
        process.awaitLog("first scan done");
        Thread.sleep(1200);
        told |= process.err().toString().contains("alarm restart_loop (high) unacknowledged");
        process.kill();
      }
      fed.add(feeder.close(System.nanoTime()).contains(1.0));
    }
    try (Program process = jvm.start(FeedingProcess.class, config.toString(), file.toString())) {
      process.awaitLog("first scan done");
      long beganNs = System.nanoTime();
      Program.await("feeding", () -> feeds(file));
      double heldS = (System.nanoTime() - beganNs) / 1e9;
      assertTrue(heldS > 12, "held for " + heldS + " s");
    }
    assertTrue(told, "an alarm");
    assertTrue(fed.contains(true), "it fed before it was a loop: " + fed);
  }

  private static boolean feeds(Path file) {
    try {
      List<String> lines = Files.readAllLines(file);
      return lines.get(lines.size() - 1).endsWith(" 1.0");
    } catch (java.io.IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
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
