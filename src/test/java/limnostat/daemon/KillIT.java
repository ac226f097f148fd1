package limnostat.daemon;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
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
import limnostat.rig.ConfigText;
import limnostat.rig.FastJvm;
import limnostat.rig.LedgerFile;
import limnostat.rig.Program;
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
 * S3 and S5 over chains of processes that are killed: at any moment, while they feed with the caps
 * nearly reached, while the log is moved into the ledger, before the first scan, and while they
 * stop. The account is never below what the feeder gave, so no cap is passed; no alarm is lost, the
 * ledger stays whole and is believed, and each process begins with outputs off. Where a kill really
 * fell is looked at afterwards. {@code -Dlimnostat.kills=1000} for more.
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
        // Low for the stabiliser below, which is the second alarm.
        .with("target.free_chlorine", "\"5 mg/L\"")
        // Or so low a cap of the day would be refused.
        .with("pool.daily_demand", "\"0.05 mg/L\"")
        // Two alarms that hold nothing, for the test to find again.
        .with("pool.cyanuric_acid", "\"120 mg/L\"")
        // The chain is a restart loop; here it may go on.
        .with("limits.restarts", "100")
        .with("limits.restart_window", "\"1 min\"");
  }

  /** When a process is killed. */
  private enum When {
    ANY,
    FEEDING,
    CHECKPOINT,
    START,
    STOP
  }

  /**
   * A chain of processes.
   *
   * @param firstS time of the first process until its kill, s
   * @param when in turn
   */
  private record Chain(
      String name,
      long seed,
      int kills,
      double hourCapG,
      double dayCapG,
      int firstS,
      List<When> when) {}

  /**
   * @param fell how many kills fell where they were meant to fall
   */
  private record Result(int fed, Map<When, Integer> fell, Set<Cause> capped, FeederBook feeder) {}

  /** One chain that reaches both caps, one that is near the cap of an hour, two that may feed. */
  @Test
  void theAccountNeverFallsBehindTheFeeder() throws Exception {
    int fifth = KILLS / 5;
    List<Chain> chains =
        List.of(
            new Chain("capped", 20260703, fifth, 4, 4.8, 15, List.of(When.ANY)),
            new Chain("near", 20260701, fifth, 12, 160, 28, List.of(When.FEEDING)),
            new Chain("moving", 20260702, fifth, 250, 1000, 2, List.of(When.CHECKPOINT)),
            new Chain(
                "edges",
                20260704,
                KILLS - 3 * fifth,
                250,
                1000,
                2,
                List.of(When.START, When.STOP)));
    long beganNs = System.nanoTime();
    ExecutorService two = Executors.newFixedThreadPool(2);
    try {
      List<Future<Result>> results = new ArrayList<>();
      for (Chain chain : chains) {
        results.add(two.submit(() -> run(chain)));
      }
      Map<When, Integer> fell = new EnumMap<>(When.class);
      int fed = 0;
      for (int i = 0; i < chains.size(); i++) {
        Chain chain = chains.get(i);
        Result result = results.get(i).get();
        fed += result.fed();
        result.fell().forEach((when, times) -> fell.merge(when, times, Integer::sum));
        Logger.info(
            "{}: {} kills, fell {}, {} of lives that fed; fed {} g, most in an hour {} g, capped by"
                + " {}",
            chain.name(),
            chain.kills(),
            result.fell(),
            result.fed(),
            result.feeder().totalG(),
            result.feeder().mostG(3600),
            result.capped());
      }
      Logger.info(
          "{} kills in {} s, fell {}", KILLS, (System.nanoTime() - beganNs) / 1_000_000_000, fell);
      // Lives that are killed before they can, or at the day's cap, feed nothing.
      int near = results.get(1).get().fed();
      assertTrue(near >= fifth * 3 / 4, "only " + near + " of " + fifth + " lives fed");
      assertTrue(fed > near, "no other chain fed");
      for (When when : List.of(When.FEEDING, When.CHECKPOINT, When.START, When.STOP)) {
        assertTrue(fell.getOrDefault(when, 0) >= Math.max(1, fifth / 8), when + " missed: " + fell);
      }
      Result capped = results.get(0).get();
      assertTrue(capped.capped().contains(Cause.CHLORINE_HOUR_CAP), "by " + capped.capped());
      // The day's cap takes more than an hour of the chain's time.
      assertTrue(
          KILLS < 200 || capped.capped().contains(Cause.CHLORINE_DAY_CAP), "by " + capped.capped());
      assertTrue(capped.feeder().mostG(3600) > 4 / 2.0, "the cap was worth testing");
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
    Killer killer = new Killer(new Random(chain.seed()), file, ledger);
    Set<Cause> capped = EnumSet.noneOf(Cause.class);
    Set<Cause> alarms = EnumSet.noneOf(Cause.class);
    Map<When, Integer> fell = new EnumMap<>(When.class);
    int alarmRows = 0;
    int fed = 0;
    for (int kill = 0; kill < chain.kills(); kill++) {
      When when = kill == 0 ? When.ANY : chain.when().get(kill % chain.when().size());
      boolean there;
      try (Program process = jvm.start(FeedingProcess.class, config.toString(), file.toString())) {
        there = killer.kill(process, when, kill == 0 ? 1000L * chain.firstS() : 0);
      }
      String label = chain.name() + ", kill " + kill + ", " + when + ": ";
      List<Double> levels = feeder.close(System.nanoTime());
      assertTrue(levels.isEmpty() || levels.get(0) == 0, label + "outputs off on the first scan");
      fed += levels.contains(1.0) ? 1 : 0;

      ScanState state = restarted(configuration, label);
      double accountG = state.chlorine().account().given();
      assertTrue(accountG >= feeder.totalG(), label + accountG + " for " + feeder.totalG() + " g");
      assertTrue(feeder.mostG(3600) <= chain.hourCapG(), label + "hour " + feeder.mostG(3600));
      assertTrue(feeder.mostG(86_400) <= chain.dayCapG(), label + "day " + feeder.mostG(86_400));
      assertFalse(state.safety().active().contains(Cause.RESTART_LOOP), label + "restart loop");
      capped.addAll(state.safety().active());
      capped.retainAll(Set.of(Cause.CHLORINE_HOUR_CAP, Cause.CHLORINE_DAY_CAP));
      boolean last = !levels.isEmpty() && levels.get(levels.size() - 1) == 1;
      boolean near =
          state.chlorine().account().lastHour() > chain.hourCapG() - 2 * caps.block() && last;
      if (there && (when != When.FEEDING || near)) {
        fell.merge(when, 1, Integer::sum);
      }

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
    return new Result(fed, fell, capped, feeder);
  }

  /** Kills at moments that it learns to meet, as machines differ. */
  private static final class Killer {
    /** In the index of the log, by SQLite's wal.c: moved so far, and meant to be moved. */
    private static final int MOVED_AT = 96;

    private static final int MEANT_AT = 128;

    private final Random random;
    private final Path book;
    private final Path index;
    private int startMs = 400;
    private int stopMs = 40;

    Killer(Random random, Path book, Path ledger) {
      this.random = random;
      this.book = book;
      this.index = ledger.resolveSibling(ledger.getFileName() + "-shm");
    }

    /**
     * @param firstMs lives so long after its first scan, whatever is meant, if more than 0
     * @return whether it fell where it was meant to
     */
    boolean kill(Program process, When when, long firstMs) throws Exception {
      if (when == When.START) {
        Thread.sleep(random.nextInt(startMs));
        assertTrue(end(process), () -> "it ended by itself: " + process.err());
        boolean there = !process.err().toString().contains("first scan done");
        startMs = there ? startMs + startMs / 20 + 1 : startMs * 4 / 5;
        return there;
      }
      process.awaitLog("first scan done");
      switch (when) {
        case ANY -> Thread.sleep(firstMs > 0 ? firstMs : random.nextInt(700));
        case FEEDING -> {
          Program.await("feeding", () -> feeds(book));
          Thread.sleep(random.nextInt(150));
        }
        case CHECKPOINT -> awaitMoving(process);
        case STOP -> {
          Thread.sleep(random.nextInt(300));
          process.signal("TERM");
          Thread.sleep(random.nextInt(stopMs));
        }
        case START -> throw new IllegalStateException("is done already");
      }
      boolean there = end(process);
      assertTrue(there || when == When.STOP, () -> "it ended by itself: " + process.err());
      if (when == When.STOP) {
        stopMs = there ? stopMs + stopMs / 20 + 1 : Math.max(1, stopMs * 4 / 5);
      }
      return when == When.CHECKPOINT ? moving() : there;
    }

    /** Whether it was still there to be killed. */
    private static boolean end(Program process) throws InterruptedException {
      process.kill();
      return process.exit() == 137;
    }

    private void awaitMoving(Program process) throws IOException {
      long endNs = System.nanoTime() + 3_000_000_000L;
      while (!moving() && System.nanoTime() < endNs) {
        assertTrue(process.alive(), () -> "it ended by itself: " + process.err());
      }
    }

    /** What is under way, or was when the process died, as the index outlives it. */
    private boolean moving() throws IOException {
      if (!Files.exists(index)) {
        return false;
      }
      byte[] bytes = new byte[MEANT_AT + 4];
      try (InputStream in = Files.newInputStream(index)) {
        if (in.readNBytes(bytes, 0, bytes.length) < bytes.length) {
          return false;
        }
      }
      ByteBuffer words = ByteBuffer.wrap(bytes).order(ByteOrder.nativeOrder());
      return words.getInt(MEANT_AT) > words.getInt(MOVED_AT);
    }
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
  private static ScanState restarted(Configuration configuration, String label) throws Exception {
    try (Ledger ledger = Ledger.open(configuration.ledger())) {
      assertEquals(Optional.empty(), ledger.restored().doubt(), label + "a kill is no damage");
      BootClock clock = HurriedClock.ofBoot();
      Resume resume = Resume.from(ledger.restored(), configuration.scan(), clock);
      ScanInputs inputs =
          new ScanInputs(
              resume.outageS(),
              clock.clock().unixTimeS(),
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
