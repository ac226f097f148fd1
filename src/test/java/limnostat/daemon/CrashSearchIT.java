package limnostat.daemon;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.Statement;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.Semaphore;
import limnostat.account.DoseAccount;
import limnostat.alarm.AlarmState;
import limnostat.alarm.Alarms;
import limnostat.config.Configuration;
import limnostat.config.ConfigurationFile;
import limnostat.config.LedgerSettings;
import limnostat.daemon.FileTrace.Change;
import limnostat.daemon.FileTrace.Kind;
import limnostat.daemon.SimulatedDisk.Fate;
import limnostat.ledger.InMemory;
import limnostat.ledger.Ledger;
import limnostat.ledger.TestLedgers;
import limnostat.measure.Signals;
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
 * Crash consistency as a search: all that the real ledger's process hands to the kernel in the hour
 * of {@link CrashScript} is written down, the power is cut after each of these changes on a {@link
 * SimulatedDisk}, and what is left is opened by the real ledger. S3: the account is never below
 * what was really given. And no change of an alarm is lost once it was told, nor there twice.
 *
 * <p>{@code -Dlimnostat.crashes=10} cuts ten times after each change. What a failing case left is
 * kept in {@code target/crash}.
 */
@Timeout(3600)
class CrashSearchIT {
  private static final int ROUNDS = Integer.getInteger("limnostat.crashes", 1);
  private static final long SEED = 20_270_211;
  private static final List<Fate> FATES = List.of(Fate.values());
  private static final List<Lie> LIES = List.of(Lie.values());
  private static final int LIES_A_ROUND = 1500;
  private static final int LONGEST_LIE = 400;

  /** Neighbouring seeds of {@link Random} begin alike. */
  private static final long MIX = 0x9E3779B97F4A7C15L;

  private static final int COPY_EVERY = 100;
  private static final String LEDGER = "limnostat.db";
  private static final String RECORD = LEDGER + ".account";
  private static final ObjectMapper JSON = new ObjectMapper();

  @TempDir(factory = InMemory.class)
  static Path folder;

  private static Configuration configuration;
  private static List<Change> trace;

  /**
   * What was true before one change of the trace.
   *
   * @param nowS monotonic time of the scan that came next, s
   * @param givenG given until then
   * @param givenLastHourG of it within the hour before
   * @param told how many changes of alarms the broker was told of
   */
  private record Truth(double nowS, double givenG, double givenLastHourG, int told) {}

  private static final List<Truth> TRUTHS = new ArrayList<>();
  private static final List<JsonNode> ALARMS = new ArrayList<>();

  @BeforeAll
  static void script() throws Exception {
    Path at = Files.createDirectory(folder.resolve("script"));
    Path file = CrashScript.config().write(at);
    configuration = ConfigurationFile.load(file).configuration();
    Path out = folder.resolve("trace");
    List<String> command = new ArrayList<>(List.of(Program.java(), "-Xmx64m"));
    command.addAll(List.of("-XX:+UseSerialGC", "-XX:TieredStopAtLevel=1"));
    command.addAll(List.of("-Dorg.sqlite.tmpdir=" + folder));
    command.addAll(List.of("-cp", System.getProperty("java.class.path")));
    command.addAll(List.of(CrashScript.class.getName(), file.toString()));
    ProcessBuilder builder = new ProcessBuilder(command);
    builder.environment().put("LD_PRELOAD", FileTrace.library(folder).toString());
    builder.environment().put("FILETRACE_FOLDER", at.toString());
    builder.environment().put("FILETRACE_OUT", out.toString());
    try (Program script = Program.start(builder)) {
      while (script.alive()) {
        Thread.sleep(20);
      }
      assertEquals(0, script.exit(), () -> "the script failed: " + script.err());
    }
    trace = FileTrace.read(out);
    truths();
  }

  /** Reads the marks; what is true at a change is what the marks around it say at worst. */
  private static void truths() throws IOException {
    List<double[]> scans = new ArrayList<>();
    List<Integer> scansBefore = new ArrayList<>();
    List<Integer> toldBefore = new ArrayList<>();
    int told = 0;
    for (Change change : trace) {
      scansBefore.add(scans.size());
      toldBefore.add(told);
      if (!change.name().equals(CrashScript.MARKS)) {
        continue;
      }
      for (String line : new String(change.data(), StandardCharsets.UTF_8).lines().toList()) {
        String[] words = line.split(" ", 2);
        switch (words[0]) {
          case "scan" -> {
            String[] numbers = words[1].split(" ", 2);
            scans.add(
                new double[] {Double.parseDouble(numbers[0]), Double.parseDouble(numbers[1])});
          }
          case "alarm" -> ALARMS.add(JSON.readTree(words[1]));
          case "told" -> told++;
          default -> throw new IOException("no such mark: " + line);
        }
      }
    }
    for (int i = 0; i < trace.size(); i++) {
      // The output goes on until the power is cut, which is before the next scan.
      int next = Math.min(scansBefore.get(i), scans.size() - 1);
      double nowS = scans.get(next)[0];
      double hourAgoG =
          scans.stream().filter(s -> s[0] <= nowS - 3600).mapToDouble(s -> s[1]).max().orElse(0);
      double givenG = scans.get(next)[1];
      TRUTHS.add(new Truth(nowS, givenG, givenG - hourAgoG, toldBefore.get(i)));
    }
  }

  /**
   * What came of a case.
   *
   * @param believed whether the ledger's account was
   * @param low whether the account was below what was given, and believed
   */
  private record Outcome(boolean believed, boolean low) {}

  private interface Cases {
    void run(Submit submit) throws Exception;
  }

  private interface Submit {
    /**
     * @param at how many changes had been made when the power was cut
     * @param honest whether the disk kept its promises
     */
    void one(String label, int at, Map<String, byte[]> files, boolean honest, Counts counts)
        throws Exception;
  }

  /** How the cases came out. */
  private static final class Counts {
    private int cases;
    private int doubted;
    private int low;

    synchronized void add(Outcome outcome) {
      cases++;
      doubted += outcome.believed() ? 0 : 1;
      low += outcome.low() ? 1 : 0;
    }

    @Override
    public String toString() {
      return cases + " cases, " + doubted + " not believed, " + low + " too low and believed";
    }
  }

  private static void search(Cases cases) throws Exception {
    int threads = Runtime.getRuntime().availableProcessors();
    ExecutorService pool = Executors.newFixedThreadPool(threads);
    Semaphore room = new Semaphore(4 * threads);
    List<Future<?>> all = new ArrayList<>();
    try {
      cases.run(
          (label, at, files, honest, counts) -> {
            room.acquire();
            all.add(
                pool.submit(
                    () -> {
                      try {
                        counts.add(check(label, at, files, honest));
                        return null;
                      } finally {
                        room.release();
                      }
                    }));
          });
      for (Future<?> each : all) {
        each.get();
      }
    } finally {
      pool.shutdownNow();
    }
  }

  /** After every single change, with whatever the disk may have made of what was not flushed. */
  @Test
  void aPowerCutAtAnyMomentLosesNoDoseAndNoAlarm() throws Exception {
    assertTrue(trace.size() > 1500, "a script of " + trace.size() + " changes");
    assertTrue(ALARMS.size() >= 12, "alarms " + ALARMS);
    Counts counts = new Counts();
    long beganNs = System.nanoTime();
    search(
        submit -> {
          for (int round = 0; round < ROUNDS; round++) {
            SimulatedDisk disk = new SimulatedDisk();
            for (int i = 0; i < trace.size(); i++) {
              if (trace.get(i).name().equals(CrashScript.MARKS)) {
                continue;
              }
              disk.take(trace.get(i));
              long seed = SEED + 1_000_000L * round + i;
              Random random = new Random(seed * MIX);
              Fate fate = FATES.get(random.nextInt(FATES.size()));
              String label =
                  "seed " + seed + ", after change " + i + ", " + trace.get(i) + ", " + fate;
              submit.one(label, i + 1, disk.cut(fate, random), true, counts);
            }
          }
        });
    Logger.info(
        "{} changes, {} alarms; power cuts: {}; {} s",
        trace.size(),
        ALARMS.size(),
        counts,
        (System.nanoTime() - beganNs) / 1_000_000_000);
    assertEquals(0, counts.doubted, "a power cut is no damage");
    assertTrue(TRUTHS.get(TRUTHS.size() - 1).givenG() > 5, "it fed");
  }

  /** What a disk loses though it said that it was flushed. */
  private enum Lie {
    /** All that the ledger's files got of late. */
    LEDGER,
    /** Any of it. */
    SOME_OF_LEDGER,
    /** All that the record got of late. */
    RECORD,
    /** Any part of all. */
    SOME_OF_ALL;

    boolean loses(Change change, Random random) {
      boolean record = change.name().equals(CrashSearchIT.RECORD);
      return switch (this) {
        case LEDGER -> !record;
        case SOME_OF_LEDGER -> !record && random.nextInt(3) == 0;
        case RECORD -> record;
        case SOME_OF_ALL -> random.nextInt(3) == 0;
      };
    }
  }

  /**
   * A card that says that it has written what it has not. Whatever it loses of the ledger shows by
   * the record; only where it loses of both there is nothing left that could tell.
   */
  @Test
  void aDiskThatLiesIsCaughtByTheRecord() throws Exception {
    Map<Lie, Counts> counts = new HashMap<>();
    for (Lie lie : Lie.values()) {
      counts.put(lie, new Counts());
    }
    Counts recordLost = new Counts();
    long beganNs = System.nanoTime();
    search(submit -> lies(submit, counts, recordLost));
    Logger.info(
        "lies: {}; with a part of the record lost too: {}; {} s",
        counts,
        recordLost,
        (System.nanoTime() - beganNs) / 1_000_000_000);
    for (Lie lie : LIES) {
      assertTrue(counts.get(lie).cases > 50, lie + " was not tried: " + counts);
      assertEquals(0, counts.get(lie).low, lie.toString());
    }
    assertTrue(counts.get(Lie.LEDGER).doubted > LIES_A_ROUND / 10, counts.toString());
  }

  private static void lies(Submit submit, Map<Lie, Counts> counts, Counts recordLost)
      throws Exception {
    for (int round = 0; round < ROUNDS; round++) {
      Deque<SimulatedDisk> copies = new ArrayDeque<>();
      SimulatedDisk disk = new SimulatedDisk();
      int every = Math.max(1, trace.size() / LIES_A_ROUND);
      for (int i = 0; i < trace.size(); i++) {
        if (i % COPY_EVERY == 0) {
          copies.addLast(disk.copy());
          if (copies.size() > LONGEST_LIE / COPY_EVERY + 2) {
            copies.removeFirst();
          }
        }
        disk.take(trace.get(i));
        if (i % every != 0 || i < 200) {
          continue;
        }
        long seed = SEED + 1_000_000L * round + i;
        Random random = new Random(seed * MIX);
        Lie lie = LIES.get(random.nextInt(LIES.size()));
        int from = Math.max(0, i + 1 - (1 + random.nextInt(LONGEST_LIE)));
        int copy = from / COPY_EVERY;
        int oldest = i / COPY_EVERY - copies.size() + 1;
        SimulatedDisk lying = new ArrayList<>(copies).get(Math.max(0, copy - oldest)).copy();
        boolean ofRecord = false;
        for (int j = Math.max(copy, oldest) * COPY_EVERY; j <= i; j++) {
          Change change = trace.get(j);
          boolean data = change.kind() == Kind.WRITE || change.kind() == Kind.LENGTH;
          if (j >= from && data && lie.loses(change, random)) {
            ofRecord |= change.name().startsWith(RECORD);
          } else {
            lying.take(change);
          }
        }
        String label =
            "seed "
                + seed
                + ", after change "
                + i
                + ", of changes "
                + from
                + " on "
                + lie
                + " lost";
        // A record that is behind is no proof, and no harm where the ledger is not.
        submit.one(
            label,
            i + 1,
            lying.cut(Fate.ALL, random),
            false,
            ofRecord && lie == Lie.SOME_OF_ALL ? recordLost : counts.get(lie));
      }
    }
  }

  private static Outcome check(String label, int at, Map<String, byte[]> files, boolean honest)
      throws Exception {
    Path image = Files.createTempDirectory(folder, "image");
    try {
      for (Map.Entry<String, byte[]> file : files.entrySet()) {
        if (file.getKey().startsWith(LEDGER)) {
          Files.write(image.resolve(file.getKey()), file.getValue());
        }
      }
      Truth truth = TRUTHS.get(Math.min(at, TRUTHS.size() - 1));
      return check(image.resolve(LEDGER), truth, honest);
    } catch (Exception | AssertionError e) {
      keep(files);
      throw new AssertionError(label + ": " + e.getMessage(), e);
    } finally {
      remove(image);
    }
  }

  private static Outcome check(Path file, Truth truth, boolean honest) throws Exception {
    LedgerSettings settings = configuration.ledger();
    boolean believed;
    ScanState resumed;
    DoseAccount account;
    try (Ledger ledger =
        TestLedgers.ofImage(
            new LedgerSettings(file, settings.readingsEveryS(), settings.keepReadingsDays()))) {
      believed = ledger.restored().doubt().isEmpty();
      if (honest) {
        assertTrue(believed, () -> "not believed: " + ledger.restored().doubt());
      }
      Resume resume =
          Resume.from(ledger.restored(), configuration.scan(), CrashScript.bootAt(truth.nowS()));
      resumed = resume.state();
      account = first(resume, ledger, truth).chlorine().account();
    }
    boolean low =
        account.given() < truth.givenG() - 1e-9
            || account.lastHour() < truth.givenLastHourG() - 1e-9;
    if (!believed) {
      assertTrue(account.dayReached(configuration.scan().chlorine().caps()), "caps not used up");
    } else if (honest) {
      assertTrue(!low, () -> "S3: " + account + " for " + truth);
    }
    if (honest) {
      assertAlarms(file, truth, resumed);
    }
    return new Outcome(believed, low && believed);
  }

  /** The first scan of the process that starts at once after the cut. */
  private static ScanState first(Resume resume, Ledger ledger, Truth truth) {
    return Scan.step(
            configuration.scan(),
            resume.state(),
            new ScanInputs(
                resume.outageS(),
                CrashScript.START_UNIX_S + truth.nowS(),
                true,
                Signals.of(Map.of()),
                ledger.booked().cumulativeAmounts(),
                false,
                true,
                List.of()))
        .state();
  }

  /**
   * The journal has the first changes of all, each once and in order, and those at least that were
   * told; what was not told waits in the outbox, once; and the alarms of the state are as the
   * journal left them, so that none comes again and none is forgotten.
   */
  private static void assertAlarms(Path file, Truth truth, ScanState resumed) throws Exception {
    List<JsonNode> journal = new ArrayList<>();
    List<String> waiting = new ArrayList<>();
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file);
        Statement statement = connection.createStatement()) {
      try (ResultSet rows =
          statement.executeQuery("SELECT json FROM event WHERE kind = 'alarm' ORDER BY id")) {
        while (rows.next()) {
          journal.add(JSON.readTree(rows.getString(1)));
        }
      }
      try (ResultSet rows = statement.executeQuery("SELECT payload FROM outbox ORDER BY number")) {
        while (rows.next()) {
          String text = new String(rows.getBytes(1), StandardCharsets.UTF_8);
          if (text.contains("\"event\":\"alarm\"")) {
            waiting.add(JSON.readTree(text).at("/id").asText());
          }
        }
      }
    }
    assertTrue(journal.size() <= ALARMS.size(), "more than there were: " + journal);
    assertEquals(ALARMS.subList(0, journal.size()), journal);
    assertTrue(journal.size() >= truth.told(), () -> "told " + truth.told() + ", in it " + journal);
    assertEquals(waiting.size(), waiting.stream().distinct().count(), "twice in the outbox");
    assertTrue(
        waiting.size() >= journal.size() - truth.told(),
        () -> journal.size() + " in the journal, told " + truth.told() + ", waiting " + waiting);
    Map<String, String> left = new HashMap<>();
    journal.forEach(change -> left.put(change.at("/alarm").asText(), change.at("/to").asText()));
    for (Cause cause : Cause.values()) {
      Alarms.Entry entry = resumed.alarms().get(cause);
      AlarmState state = entry == null ? AlarmState.NORMAL : entry.state();
      assertEquals(left.getOrDefault(cause.id(), "normal"), state.term(), cause.id());
    }
  }

  private static void keep(Map<String, byte[]> files) throws IOException {
    Path kept = Files.createDirectories(Path.of("target", "crash"));
    for (Map.Entry<String, byte[]> file : files.entrySet()) {
      Files.write(kept.resolve(file.getKey()), file.getValue());
    }
    Path out = folder.resolve("trace");
    if (Files.exists(out)) {
      Files.copy(out, kept.resolve("trace"), StandardCopyOption.REPLACE_EXISTING);
    }
  }

  private static void remove(Path image) throws IOException {
    try (var files = Files.list(image)) {
      for (Path file : files.toList()) {
        if (Files.isDirectory(file)) {
          remove(file);
        } else {
          Files.delete(file);
        }
      }
    }
    Files.delete(image);
  }
}
