package limnostat.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import limnostat.config.LedgerSettings;
import limnostat.daemon.EventLog;
import limnostat.daemon.LocalCommandFolder;
import limnostat.ledger.Ledger;
import limnostat.rig.Program;
import limnostat.scan.Command;
import limnostat.scan.ScanEvent;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** A person at the machine and a daemon, by what they leave for each other. */
@Timeout(30)
class BoardRequestTest {
  @TempDir Path folder;

  private Path ledger() {
    return folder.resolve("limnostat.db");
  }

  private static void answer(LocalCommandFolder spool, boolean accept) {
    Command.Request request = null;
    while (request == null) {
      request = spool.take().stream().findFirst().orElse(null);
    }
    spool.answered(
        List.of(
            accept
                ? new ScanEvent.Accepted(request, Optional.of("pH offset 1.2 mV,\n\"slope\" 98 %"))
                : new ScanEvent.Refused(request, "no such buffer")));
  }

  @Test
  void theAnswerIsTheDocumentOfTheTopicResult() throws Exception {
    try (EventLog log = new EventLog(line -> {});
        Ledger ledger = Ledger.open(new LedgerSettings(ledger(), 60, 30));
        LocalCommandFolder spool = LocalCommandFolder.open(ledger(), ledger, log)) {
      Program.await("the folder", () -> LocalCommandFolder.folder(ledger()).toFile().isDirectory());
      for (boolean accept : List.of(true, false)) {
        CompletableFuture<Void> daemon = CompletableFuture.runAsync(() -> answer(spool, accept));
        String answer =
            BoardRequest.ask(ledger(), "calibrate", Map.of("probe", "orp", "orp_mv", 470.0));
        daemon.get();
        JsonNode json = new ObjectMapper().readTree(answer);
        assertTrue(!answer.contains("\n"), "one line: " + answer);
        assertEquals("calibrate", json.path("type").asText());
        assertEquals("board", json.path("origin").asText());
        assertEquals(accept ? "accepted" : "refused", json.path("result").asText());
        assertEquals(
            accept ? "pH offset 1.2 mV,\n\"slope\" 98 %" : "no such buffer",
            json.path(accept ? "remark" : "reason").asText());
      }
    }
  }

  @Test
  void withoutADaemonNothingIsAnswered() {
    IOException e =
        assertThrows(
            IOException.class, () -> BoardRequest.ask(ledger(), "test_result", Map.of("ph", 7.4)));
    assertTrue(e.getMessage().contains("no daemon"), e.getMessage());
  }
}
