package limnostat.daemon.service;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Log and notification with the shipped settings, in processes of their own. */
class LogProcessIT {
  @TempDir private Path folder;
  private Path out;
  private Path err;

  @BeforeEach
  void makeStreams() throws IOException {
    out = Files.createFile(folder.resolve("out"));
    err = Files.createFile(folder.resolve("err"));
  }

  @Test
  void systemdHearsOfTheWholeLife() throws Exception {
    String address = folder.resolve("notify").toString();
    try (ReceivingSocket manager = new ReceivingSocket(address)) {
      assertEquals(0, run("notify", Map.of("NOTIFY_SOCKET", address, "WATCHDOG_USEC", "20000000")));
      assertEquals(
          List.of("READY=1", "WATCHDOG=1", "STATUS=running", "STOPPING=1"), manager.messages());
    }
    assertEquals("", Files.readString(err));
    assertTrue(Files.readString(out).contains("com.sun.jna.Native "));
  }

  @Test
  void withoutSystemdJnaIsNotEvenLoaded() throws Exception {
    assertEquals(0, run("notify", Map.of()));
    assertEquals("", Files.readString(err));
    assertTrue(Files.readString(out).contains(ServiceNotifier.class.getName()));
    assertFalse(Files.readString(out).contains("com.sun.jna"));
  }

  @Test
  void failureToNotifyIsLoggedOnce() throws Exception {
    assertEquals(0, run("notify", Map.of("NOTIFY_SOCKET", folder.resolve("none").toString())));
    List<String> lines = Files.readAllLines(err);
    assertEquals(1, lines.size(), lines.toString());
    assertTrue(lines.get(0).contains("READY=1") && lines.get(0).contains("No such file"));
  }

  @Test
  void libraryThatDoesNotLoadIsOneWarningWithItsMend() throws Exception {
    assertEquals(0, run("notify-without-jna", Map.of("NOTIFY_SOCKET", "/run/notify")));
    List<String> lines = Files.readAllLines(err);
    assertEquals(1, lines.size(), lines.toString());
    assertTrue(lines.get(0).contains("WARN") && lines.get(0).contains("jna.tmpdir"), lines.get(0));
  }

  @Test
  void peopleReadTimeAndLevelEachEntryOnOneLine() throws Exception {
    assertEquals(0, run("levels", Map.of()));
    assertLines(
        "\\d{4}-\\d\\d-\\d\\d \\d\\d:\\d\\d:\\d\\d INFO shown",
        "\\d{4}-\\d\\d-\\d\\d \\d\\d:\\d\\d:\\d\\d WARN two\\\\nlines");
  }

  @Test
  void journalIsKnownByDeviceAndInode() throws Exception {
    String journal =
        Files.getAttribute(err, "unix:dev") + ":" + Files.getAttribute(err, "unix:ino");
    assertEquals(0, run("levels", Map.of("JOURNAL_STREAM", journal)));
    assertLines("<6>shown", "<4>two\\\\nlines");
  }

  @Test
  void librariesLogThroughTheWriterAndPi4jOnlyItsTroubles() throws Exception {
    assertEquals(0, run("pi4j", Map.of()));
    // Where there is no known board it complains of that; it tells of its start and stop at INFO.
    List<String> news =
        Files.readAllLines(err).stream().filter(line -> line.contains(" INFO ")).toList();
    assertEquals(1, news.size(), news.toString());
    assertTrue(news.get(0).endsWith("INFO from SLF4J"), news.get(0));
  }

  @Test
  void inheritedJournalVariableIsNotBelieved() throws Exception {
    assertEquals(0, run("levels", Map.of("JOURNAL_STREAM", "1:1")));
    assertTrue(Files.readAllLines(err).get(0).endsWith(" INFO shown"));
  }

  @Test
  void nothingLoggedDuringShutdownIsLost() throws Exception {
    assertEquals(0, run("late", Map.of()));
    List<String> lines = Files.readAllLines(err);
    assertEquals(200, lines.size());
    assertTrue(lines.get(199).endsWith(" entry 199"));
    assertTrue(Files.readString(out).contains("\ntrue\n"));
  }

  @Test
  void pipeThatNobodyReadsHoldsUpNeitherCallerNorExit() throws Exception {
    Process process =
        builder("stuck", Map.of()).redirectError(ProcessBuilder.Redirect.PIPE).start();
    try {
      assertTrue(process.waitFor(30, TimeUnit.SECONDS), "the process hangs");
      assertEquals(7, process.exitValue());
      assertTrue(Files.readString(out).contains("\nfalse\n"));
    } finally {
      process.destroyForcibly();
    }
  }

  private void assertLines(String... patterns) throws IOException {
    List<String> lines = Files.readAllLines(err);
    assertEquals(patterns.length, lines.size(), lines.toString());
    for (int i = 0; i < patterns.length; i++) {
      assertTrue(lines.get(i).matches(patterns[i]), lines.get(i));
    }
  }

  private int run(String mode, Map<String, String> environment) throws Exception {
    Process process = builder(mode, environment).redirectError(err.toFile()).start();
    try {
      assertTrue(process.waitFor(60, TimeUnit.SECONDS), "the process hangs");
      return process.exitValue();
    } finally {
      process.destroyForcibly();
    }
  }

  private ProcessBuilder builder(String mode, Map<String, String> environment) {
    ProcessBuilder builder =
        new ProcessBuilder(
            Path.of(System.getProperty("java.home"), "bin", "java").toString(),
            "-Xlog:class+load:stdout",
            "-cp",
            System.getProperty("java.class.path"),
            LogProcess.class.getName(),
            mode);
    builder
        .environment()
        .keySet()
        .removeAll(List.of("NOTIFY_SOCKET", "WATCHDOG_USEC", "WATCHDOG_PID", "JOURNAL_STREAM"));
    builder.environment().putAll(environment);
    return builder.redirectOutput(out.toFile());
  }
}
