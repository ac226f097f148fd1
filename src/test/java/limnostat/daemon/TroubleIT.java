package limnostat.daemon;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import limnostat.rig.ConfigText;
import limnostat.rig.FastJvm;
import limnostat.rig.LedgerFile;
import limnostat.rig.Program;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * A process that feeds, and what befalls it: outputs off on every way out of it, and control that
 * goes on whatever disk, ledger and log do. The feeder's book tells what the outputs did.
 */
@Timeout(120)
class TroubleIT {
  @TempDir static Path shared;
  private static FastJvm jvm;

  @TempDir Path folder;
  private Path config;
  private Path book;

  @BeforeAll
  static void archive() throws Exception {
    Path config = config().write(shared);
    jvm =
        FastJvm.make(
            shared,
            FeedingProcess.class,
            config.toString(),
            shared.resolve("feeder").toString(),
            "stop");
  }

  private static ConfigText config() throws IOException {
    return ConfigText.feedingSoon()
        .withoutBroker()
        .with("scan.period", "\"0.1 s\"") // 10 s of the hurried clock
        .with("limits.chlorine_hour", "\"250 g\"")
        .with("limits.chlorine_day", "\"1000 g\"");
  }

  @BeforeEach
  void write() throws IOException {
    config = config().write(folder);
    book = Files.createFile(shared.resolve("book-" + System.nanoTime()));
  }

  private Program process(String trouble) throws IOException {
    return jvm.start(FeedingProcess.class, config.toString(), book.toString(), trouble);
  }

  private List<String> levels() {
    try {
      return Files.readAllLines(book).stream().map(line -> line.split(" ", 2)[1]).toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private boolean feeds() {
    return last().equals("1.0");
  }

  private String last() {
    List<String> levels = levels();
    return levels.isEmpty() ? "" : levels.get(levels.size() - 1);
  }

  private void assertFedAndIsOff() {
    assertTrue(levels().contains("1.0"), "it never fed: " + levels());
    assertTrue(last().matches("0(\\.0)?"), "left on: " + levels());
  }

  @ParameterizedTest
  @ValueSource(strings = {"error", "thread", "memory", "memory_elsewhere"})
  void whatNobodyCatchesSwitchesTheOutputsOffAndEndsTheProcess(String trouble) throws Exception {
    try (Program process = process(trouble)) {
      assertEquals(LastResort.EXIT, process.exit(), process.err()::toString);
      String words = trouble.startsWith("memory") ? "OutOfMemoryError" : "provoked";
      assertTrue(process.err().toString().contains(words), process.err()::toString);
      assertFedAndIsOff();
    }
  }

  /** Longer than a later scan may take; nothing has been on yet. */
  @Test
  void aSlowStartIsNoHang() throws Exception {
    try (Program process = process("slow_start")) {
      process.awaitLog("first scan done");
      Program.await("feeding", this::feeds);
      process.signal("TERM");
      assertEquals(143, process.exit());
      assertFedAndIsOff();
    }
  }

  /** 2 periods and 8 s; then the guard, from a thread of its own. */
  @Test
  void aScanThatHangsIsEndedByTheGuard() throws Exception {
    try (Program process = process("hang")) {
      Program.await("feeding", this::feeds);
      long beganNs = System.nanoTime();
      assertEquals(HangGuard.EXIT_HUNG, process.exit());
      double tookS = (System.nanoTime() - beganNs) / 1e9;
      assertTrue(tookS < 15, "ended after " + tookS + " s");
      assertFedAndIsOff();
    }
  }

  @Test
  void sigtermSwitchesOffAtOnceThoughTheScanHangs() throws Exception {
    try (Program process = process("hang")) {
      Program.await("feeding", this::feeds);
      Thread.sleep(1500); // it hangs by now
      assertTrue(feeds(), "on, and nobody to switch it off");
      process.signal("TERM");
      Program.await("off", () -> !feeds());
      assertEquals(143, process.exit());
      assertFedAndIsOff();
    }
  }

  /** The kernel frees the lines; the level that they have then is the board's affair. */
  @Test
  void sigkillAndTheUnitsOptionLeaveTheLinesToTheKernel() throws Exception {
    try (Program process = process("none")) {
      Program.await("feeding", this::feeds);
      process.kill();
      assertEquals(137, process.exit());
    }
    Files.write(book, new byte[0]);
    try (Program process =
        Program.start(
            jvm.with(
                "-XX:+ExitOnOutOfMemoryError",
                FeedingProcess.class,
                config.toString(),
                book.toString(),
                "memory"))) {
      assertEquals(3, process.exit(), "as the JVM has it");
      assertTrue(
          process.err().toString().contains("java.lang.OutOfMemoryError")
              || process.out().toString().contains("java.lang.OutOfMemoryError"),
          () -> process.out() + " " + process.err());
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"garbage", "truncated"})
  void aDamagedLedgerIsSetAsideAndTheCapsAreUsedUp(String damage) throws Exception {
    Path ledger = folder.resolve("limnostat.db");
    try (Program process = process("stop")) {
      assertEquals(0, process.exit(), process.err()::toString);
    }
    assertTrue(levels().contains("1.0"), "it fed");
    byte[] whole = Files.readAllBytes(ledger);
    Files.write(
        ledger,
        damage.equals("garbage")
            ? "no database at all".repeat(1000).getBytes(java.nio.charset.StandardCharsets.UTF_8)
            : java.util.Arrays.copyOf(whole, whole.length / 2));
    Files.write(book, new byte[0]);
    try (Program process = process("none")) {
      process.awaitLog("the ledger is not believed, as it was damaged; it is set aside as");
      process.awaitLog("alarm account_unknown (high) unacknowledged");
      process.signal("TERM");
      process.exit();
    }
    assertTrue(levels().size() > 5, "scans went on");
    assertFalse(levels().contains("1.0"), "fed on an account that nobody knows");
    try (Stream<Path> files = Files.list(folder)) {
      List<String> aside =
          files
              .map(f -> f.getFileName().toString())
              .filter(f -> f.matches(".*damaged.*\\d{4}.*"))
              .toList();
      assertFalse(aside.isEmpty(), "set aside with its date");
    }
    LedgerFile.assertIntact(ledger);
  }

  /** In a name space of its own, so that the disk can be small. */
  private List<String> mounted(String options) {
    return List.of(
        "unshare",
        "--map-root-user",
        "--mount",
        "sh",
        "-c",
        "mount -t tmpfs -o " + options + " tmpfs '" + folder + "' && exec \"$@\"",
        "sh");
  }

  /** The ledger's folder is a small disk; the configuration names it from elsewhere. */
  private ProcessBuilder onDisk(String options) throws IOException {
    Path elsewhere =
        config()
            .with("ledger.file", "\"" + folder.resolve("limnostat.db") + "\"")
            .write(Files.createDirectory(shared.resolve("config-" + System.nanoTime())));
    return jvm.builder(
        mounted(options), FeedingProcess.class, elsewhere.toString(), book.toString(), "none");
  }

  @Test
  void aFullDiskEndsFeedingWithWhatIsBookedAndScansGoOn() throws Exception {
    try (Program process = Program.start(onDisk("size=6m"))) {
      Program.await("feeding", this::feeds);
      Path disk = Path.of("/proc/" + process.pid() + "/root" + folder);
      assertTrue(Files.exists(disk.resolve("limnostat.db")), "the process's own disk");
      Path filler = disk.resolve("filler");
      fill(filler);
      process.awaitLog("alarm ledger_failing (high) unacknowledged");
      Program.await("off", () -> !feeds());
      int scans = levels().size();
      Program.await("scans that go on", () -> levels().size() > scans + 10);
      assertTrue(process.alive());
      Files.delete(filler);
      Program.await("feeding again", this::feeds);
      process.signal("TERM");
      process.exit();
    }
  }

  private static void fill(Path filler) {
    try (var out = Files.newOutputStream(filler)) {
      while (true) {
        out.write(new byte[4096]);
      }
    } catch (IOException e) {
      assertTrue(e.getMessage().contains("space"), e.getMessage());
    }
  }

  /** Nothing can be booked, so nothing is fed; the service manager tries again. */
  @Test
  void aFolderThatCannotBeWrittenEndsTheStartWithAWord() throws Exception {
    try (Program process = Program.start(onDisk("ro,size=1m"))) {
      assertTrue(process.exit() != 0, process.err()::toString);
      assertTrue(process.err().toString().contains(folder.toString()), process.err()::toString);
      assertFalse(levels().contains("1.0"));
    }
  }

  /** Both pipes are full from the start, and nobody reads. */
  @Test
  void aLogThatNobodyReadsDelaysNoScan() throws Exception {
    List<String> full =
        List.of(
            "sh", "-c", "head -c 65536 /dev/zero; head -c 65536 /dev/zero >&2; exec \"$@\"", "sh");
    Process process =
        jvm.builder(full, FeedingProcess.class, config.toString(), book.toString(), "none").start();
    try {
      Program.await("feeding", this::feeds);
      int scans = levels().size();
      Program.await("scans that go on", () -> levels().size() > scans + 20);
      process.destroy();
      assertTrue(process.waitFor(20, TimeUnit.SECONDS), "it hangs on its way out");
      assertFedAndIsOff();
    } finally {
      process.destroyForcibly();
    }
  }
}
