package limnostat.daemon;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class AnnouncedTopicsTest {
  @TempDir Path folder;

  private final List<EventLog.Line> lines = new CopyOnWriteArrayList<>();

  private List<String> replace(String... now) {
    try (EventLog log = new EventLog(lines::add)) {
      return new AnnouncedTopics(folder.resolve("l.db"), log).replace(List.of(now));
    }
  }

  @Test
  void whatIsNotToldAnyMoreIsGoneInTheOrderOfOldAtEachStart() {
    assertEquals(List.of(), replace("h/$state", "h/a", "h/b"));
    assertEquals(List.of(), replace("h/$state", "h/a", "h/b"));
    assertEquals(List.of("h/$state", "h/b"), replace("h/a", "x"));
    assertEquals(List.of("h/$state", "h/a", "h/b", "x"), replace());
    assertEquals(List.of("h/$state", "h/a", "h/b", "x"), replace());
    assertEquals(List.of(), lines);
  }

  @Test
  void whoNeverToldAnythingLeavesNoFile() throws IOException {
    assertEquals(List.of(), replace());
    try (var files = Files.list(folder)) {
      assertEquals(0, files.count());
    }
  }

  @Test
  void aFileThatCannotBeReadIsTold() throws IOException {
    Files.createDirectory(folder.resolve("l.db.announced"));
    assertEquals(List.of(), replace());
    assertEquals(1, lines.size());
    assertTrue(lines.get(0).warning());
    assertTrue(lines.get(0).text().contains("l.db.announced cannot be read"));
  }
}
