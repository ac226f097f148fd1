package limnostat.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import limnostat.scan.Command;
import limnostat.scan.ScanEvent;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

@Timeout(30)
class SpoolTest {
  @TempDir Path folder;

  private final List<String> log = new ArrayList<>();

  private Path ledger() {
    return folder.resolve("limnostat.db");
  }

  private static List<Command.Request> next(Spool spool) throws InterruptedException {
    List<Command.Request> taken = new ArrayList<>();
    Program.await("a command", () -> taken.addAll(spool.take()));
    return taken;
  }

  @Test
  void aCommandIsTakenOnceWithTheBoardAsItsOriginAndAnswered() throws Exception {
    try (EventLog events = new EventLog(line -> log.add(line.text()));
        Spool spool = Spool.open(ledger(), events)) {
      Path in = Spool.folder(ledger());
      Program.await("the folder", () -> Files.isDirectory(in));
      assertEquals("rwx------", PosixFilePermissions.toString(Files.getPosixFilePermissions(in)));
      Files.writeString(
          Spool.command(in, "a1"), "{\"type\":\"test_result\",\"ph\":7.4,\"request_id\":\"a1\"}");
      Command.Request request = next(spool).get(0);
      assertEquals(Command.Request.BOARD, request.origin());
      assertInstanceOf(Command.Test.class, request.command());
      assertFalse(Files.exists(Spool.command(in, "a1")));
      spool.answered(List.of(new ScanEvent.Accepted(request, Optional.of("well"))));
      Program.await("an answer", () -> Files.exists(Spool.answer(in, "a1")));
      assertEquals(
          "{\"event\":\"command\",\"type\":\"test_result\",\"request_id\":\"a1\",\"origin\":\"board\","
              + "\"result\":\"accepted\",\"remark\":\"well\"}\n",
          Files.readString(Spool.answer(in, "a1")));
    }
  }

  @Test
  void whatIsNoCommandIsRefusedAndTaken() throws Exception {
    try (EventLog events = new EventLog(line -> log.add(line.text()));
        Spool spool = Spool.open(ledger(), events)) {
      Path in = Spool.folder(ledger());
      Program.await("the folder", () -> Files.isDirectory(in));
      Files.writeString(
          Spool.command(in, "b1"), "{\"request_id\":\"b1\",\"x\":\"" + "x".repeat(100_000));
      Command.Request tooLong = next(spool).get(0);
      assertEquals(new Command.Unreadable("longer than 4096 bytes"), tooLong.command());
      assertEquals(Optional.of("b1"), tooLong.requestId(), "or nobody could be answered");
      Files.createSymbolicLink(Spool.command(in, "b2"), Path.of("/dev/zero"));
      assertInstanceOf(Command.Unreadable.class, next(spool).get(0).command());
      assertFalse(Files.exists(Spool.command(in, "b1")));
    }
  }

  /** An id that would lead out of the folder, and the answers of others, are not written. */
  @Test
  void nothingIsWrittenElsewhere() throws Exception {
    try (EventLog events = new EventLog(line -> log.add(line.text()));
        Spool spool = Spool.open(ledger(), events)) {
      Path in = Spool.folder(ledger());
      Program.await("the folder", () -> Files.isDirectory(in));
      Command command = new Command.SetTarget(3);
      for (String[] of : new String[][] {{"../x", "board"}, {"c2", "mqtt"}, {"c3", "board"}}) {
        spool.answered(
            List.of(
                new ScanEvent.Refused(
                    new Command.Request(Optional.of(of[0]), "target", of[1], "{}", command),
                    "no")));
      }
      Program.await("the last", () -> Files.exists(Spool.answer(in, "c3")));
      assertFalse(Files.exists(Spool.answer(in, "c2")));
      assertFalse(Files.exists(folder.resolve("x.answer")));
    }
  }

  @Test
  void aFolderThatCannotBeIsToldOnce() throws Exception {
    Files.writeString(Spool.folder(ledger()), "a file");
    try (EventLog events = new EventLog(line -> log.add(line.text()));
        Spool spool = Spool.open(ledger(), events)) {
      Thread.sleep(800);
      assertTrue(spool.take().isEmpty());
    }
    assertEquals(1, log.size(), log.toString());
    assertTrue(log.get(0).contains("cannot be taken"), log.toString());
  }
}
