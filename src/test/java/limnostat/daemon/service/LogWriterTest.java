package limnostat.daemon.service;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.ZoneId;
import java.util.Date;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.tinylog.Level;
import org.tinylog.core.LogEntry;
import org.tinylog.runtime.Timestamp;

class LogWriterTest {

  @Test
  void journalGetsPriorityAndNeitherTimeNorLevel() {
    // sd-daemon(3): SD_ERR 3, SD_WARNING 4, SD_INFO 6, SD_DEBUG 7
    assertEquals("<3>24.5 °C\n", written(true, Level.ERROR, "24.5 °C", null));
    assertEquals("<4>x\n", written(true, Level.WARN, "x", null));
    assertEquals("<6>x\n", written(true, Level.INFO, "x", null));
    assertEquals("<7>x\n", written(true, Level.DEBUG, "x", null));
    assertEquals("<7>x\n", written(true, Level.TRACE, "x", null));
  }

  @Test
  void peopleGetTimeAndLevel() {
    assertEquals("2026-07-10 12:00:00 WARN message\n", written(false, Level.WARN, "message", null));
  }

  @Test
  void warningTellsTheChainOfCausesOnOneLine() {
    String chain = "java.io.IOException: bus 1: java.lang.IllegalStateException: no\\n<0>answer\n";
    assertEquals("<4>probe: " + chain, written(true, Level.WARN, "probe", thrown()));
    assertEquals("<4>" + chain, written(true, Level.WARN, null, thrown()));
  }

  @Test
  void everyLineOfAnErrorsTraceHasThePriority() {
    List<String> lines = written(true, Level.ERROR, "probe", thrown()).lines().toList();
    assertTrue(lines.size() > 4, "no trace: " + lines);
    for (String line : lines) {
      assertTrue(line.startsWith("<3>"), line);
    }
    assertEquals(
        "<3>probe: java.io.IOException: bus 1: java.lang.IllegalStateException: no\\n<0>answer",
        lines.get(0));
    assertTrue(lines.get(1).startsWith("<3>\tat " + LogWriterTest.class.getName()), lines.get(1));
    assertTrue(lines.contains("<3>Caused by java.lang.IllegalStateException"));
  }

  @Test
  void onlyTheFirstLineOfATraceHasTheTime() {
    List<String> lines = written(false, Level.ERROR, "probe", thrown()).lines().toList();
    assertTrue(lines.get(0).startsWith("2026-07-10 12:00:00 ERROR probe: "), lines.get(0));
    assertTrue(lines.get(1).startsWith("\tat "), lines.get(1));
  }

  @Test
  void causesThatFormARingEnd() {
    Exception first = new Exception("first");
    Exception second = new Exception("second", first);
    first.initCause(second);
    assertEquals(
        "<4>java.lang.Exception: first: java.lang.Exception: second\n",
        written(true, Level.WARN, null, first));
  }

  @Test
  void textFromOutsideForgesNoEntryAndHidesNothing() {
    assertEquals(
        "<6>topic a\\r\\n<0>forged\\t\\u001b[31m\\u0085\\u202e\\u2028\\ud800 é\n",
        written(
            true, Level.INFO, "topic a\r\n<0>forged\t\u001b[31m\u0085\u202e\u2028\ud800 é", null));
  }

  @Test
  void usualTextStaysAsItIs() {
    String text = "pH 7.2 ± 0.1, 24 °C, \\ and 😀";
    assertEquals(text, SingleLine.of(text));
    assertFalse(SingleLine.of("a\u0000b").contains("\u0000"));
  }

  private static Throwable thrown() {
    return new IOException("bus 1", new IllegalStateException("no\n<0>answer"));
  }

  private static String written(boolean toJournal, Level level, String message, Throwable thrown) {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    // The locale of a service has no degree sign; the writer has to get it through all the same.
    PrintStream stderr = new PrintStream(bytes, true, StandardCharsets.US_ASCII);
    new LogWriter(stderr, toJournal, ZoneId.of("UTC"))
        .write(
            new LogEntry(
                new FixedTime(Instant.parse("2026-07-10T12:00:00Z")),
                null,
                Map.of(),
                null,
                null,
                null,
                -1,
                null,
                level,
                message,
                thrown));
    return bytes.toString(StandardCharsets.UTF_8);
  }

  private record FixedTime(Instant instant) implements Timestamp {
    @Override
    @SuppressWarnings("JavaUtilDate") // tinylog's interface asks for it
    public Date toDate() {
      return Date.from(instant);
    }

    @Override
    public Instant toInstant() {
      return instant;
    }

    @Override
    public java.sql.Timestamp toSqlTimestamp() {
      return java.sql.Timestamp.from(instant);
    }

    @Override
    public long calcDifferenceInNanoseconds(Timestamp other) {
      return java.time.Duration.between(other.toInstant(), instant).toNanos();
    }
  }
}
