package limnostat.daemon;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import limnostat.config.LedgerSettings;
import limnostat.ledger.Entry;
import limnostat.ledger.Ledger;
import limnostat.ledger.Moment;
import limnostat.rig.LedgerFile;
import limnostat.rig.Program;
import limnostat.scan.Command;
import limnostat.scan.ScanEvent;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

@Timeout(30)
class LocalCommandFolderTest {
  @TempDir Path folder;

  private final List<String> log = Collections.synchronizedList(new ArrayList<>());

  private Path ledger() {
    return folder.resolve("limnostat.db");
  }

  private static List<Command.Request> next(LocalCommandFolder spool) throws InterruptedException {
    List<Command.Request> taken = new ArrayList<>();
    Program.await("a command", () -> taken.addAll(spool.take()));
    return taken;
  }

  @Test
  void aCommandIsTakenOnceWithTheBoardAsItsOriginAndAnswered() throws Exception {
    try (EventLog events = new EventLog(line -> log.add(line.text()));
        Ledger ledger = Ledger.open(new LedgerSettings(ledger(), 60, 30));
        LocalCommandFolder spool = LocalCommandFolder.open(ledger(), ledger, events)) {
      Path in = LocalCommandFolder.folder(ledger());
      Program.await("the folder", () -> Files.isDirectory(in));
      assertEquals("rwx------", PosixFilePermissions.toString(Files.getPosixFilePermissions(in)));
      Files.writeString(
          LocalCommandFolder.command(in, "a1"),
          "{\"type\":\"test_result\",\"ph\":7.4,\"request_id\":\"a1\"}");
      Command.Request request = next(spool).get(0);
      assertEquals(Command.Request.BOARD, request.origin());
      assertInstanceOf(Command.Test.class, request.command());
      assertFalse(Files.exists(LocalCommandFolder.command(in, "a1")));
      spool.answered(List.of(new ScanEvent.Accepted(request, Optional.of("well"))));
      Program.await("an answer", () -> Files.exists(LocalCommandFolder.answer(in, "a1")));
      assertEquals(
          "{\"event\":\"command\",\"type\":\"test_result\",\"request_id\":\"a1\",\"origin\":\"board\","
              + "\"result\":\"accepted\",\"remark\":\"well\"}\n",
          Files.readString(LocalCommandFolder.answer(in, "a1")));
    }
  }

  @Test
  void whatIsNoCommandIsRefusedAndTaken() throws Exception {
    try (EventLog events = new EventLog(line -> log.add(line.text()));
        Ledger ledger = Ledger.open(new LedgerSettings(ledger(), 60, 30));
        LocalCommandFolder spool = LocalCommandFolder.open(ledger(), ledger, events)) {
      Path in = LocalCommandFolder.folder(ledger());
      Program.await("the folder", () -> Files.isDirectory(in));
      Files.writeString(
          LocalCommandFolder.command(in, "b1"),
          "{\"request_id\":\"b1\",\"x\":\"" + "x".repeat(100_000));
      Command.Request tooLong = next(spool).get(0);
      assertEquals(new Command.Unreadable("longer than 4096 bytes"), tooLong.command());
      assertEquals(Optional.of("b1"), tooLong.requestId(), "or nobody could be answered");
      Files.createSymbolicLink(LocalCommandFolder.command(in, "b2"), Path.of("/dev/zero"));
      assertInstanceOf(Command.Unreadable.class, next(spool).get(0).command());
      assertFalse(Files.exists(LocalCommandFolder.command(in, "b1")));
    }
  }

  /** An id that would lead out of the folder, and the answers of others, are not written. */
  @Test
  void nothingIsWrittenElsewhere() throws Exception {
    try (EventLog events = new EventLog(line -> log.add(line.text()));
        Ledger ledger = Ledger.open(new LedgerSettings(ledger(), 60, 30));
        LocalCommandFolder spool = LocalCommandFolder.open(ledger(), ledger, events)) {
      Path in = LocalCommandFolder.folder(ledger());
      Program.await("the folder", () -> Files.isDirectory(in));
      Command command = new Command.SetTarget(3);
      for (String[] of : new String[][] {{"../x", "board"}, {"c2", "mqtt"}, {"c3", "board"}}) {
        spool.answered(
            List.of(
                new ScanEvent.Refused(
                    new Command.Request(Optional.of(of[0]), "target", of[1], "{}", command),
                    "no")));
      }
      Program.await("the last", () -> Files.exists(LocalCommandFolder.answer(in, "c3")));
      assertFalse(Files.exists(LocalCommandFolder.answer(in, "c2")));
      assertFalse(Files.exists(folder.resolve("x.answer")));
    }
  }

  /** What a kill at that moment would take back must not have been promised. */
  @Test
  void theAnswerComesWhenTheLedgerHasIt() throws Exception {
    try (EventLog events = new EventLog(line -> log.add(line.text()));
        Ledger ledger = Ledger.open(new LedgerSettings(ledger(), 60, 30));
        LocalCommandFolder spool = LocalCommandFolder.open(ledger(), ledger, events)) {
      Path in = LocalCommandFolder.folder(ledger());
      Program.await("the folder", () -> Files.isDirectory(in));
      CountDownLatch held = new CountDownLatch(1);
      CountDownLatch write = new CountDownLatch(1);
      Command.Request request =
          new Command.Request(
              Optional.of("e1"), "target", "board", "{\"e1\":1}", new Command.SetTarget(3));
      Moment now = new Moment(1, 1, true, "boot");
      // As a scan does it, but in a scan that takes long: nothing is committed meanwhile.
      Thread scan =
          new Thread(
              () ->
                  ledger.together(
                      () -> {
                        ledger.offer(new Entry.Setting(now, "target", "{\"e1\":1}", "board"));
                        spool.answered(List.of(new ScanEvent.Accepted(request)));
                        held.countDown();
                        awaited(write);
                      }));
      scan.start();
      held.await();
      Files.writeString(LocalCommandFolder.command(in, "e2"), "{}");
      next(spool); // the folder has been looked into since
      Files.writeString(LocalCommandFolder.command(in, "e3"), "{}");
      next(spool);
      assertFalse(Files.exists(LocalCommandFolder.answer(in, "e1")), "answered before the commit");
      write.countDown();
      Program.await("an answer", () -> Files.exists(LocalCommandFolder.answer(in, "e1")));
      assertEquals("1", LedgerFile.text(ledger(), "SELECT count(*) FROM setting"));
      scan.join();
    }
  }

  private static void await(LocalCommandFolder spool, String id) throws InterruptedException {
    Program.await(
        "command " + id,
        () -> spool.take().stream().anyMatch(r -> r.requestId().equals(Optional.of(id))));
  }

  private static void awaited(CountDownLatch latch) {
    try {
      latch.await();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  /** Whatever lies there, the others are taken. */
  @Test
  void anOddEntryIsInNobodysWay() throws Exception {
    Path in = Files.createDirectory(LocalCommandFolder.folder(ledger()));
    Files.setPosixFilePermissions(in, PosixFilePermissions.fromString("rwx------"));
    for (String odd : List.of("a.json", "m.json", "z.json")) {
      Files.createDirectories(in.resolve(odd).resolve("full"));
    }
    Files.createSymbolicLink(in.resolve("b.json"), Path.of("/nowhere"));
    Files.writeString(in.resolve("\u00e4 \ud83d\ude00.json"), "{}");
    try (EventLog events = new EventLog(line -> log.add(line.text()));
        Ledger ledger = Ledger.open(new LedgerSettings(ledger(), 60, 30));
        LocalCommandFolder spool = LocalCommandFolder.open(ledger(), ledger, events)) {
      Files.writeString(
          LocalCommandFolder.command(in, "f1"), "{\"type\":\"reset\",\"request_id\":\"f1\"}");
      await(spool, "f1");
      Files.writeString(LocalCommandFolder.command(in, "f2"), "{\"request_id\":\"f2\"}");
      await(spool, "f2");
    }
    assertEquals(3, log.size(), log.toString());
    assertTrue(log.get(0).contains("left alone until the next start"), log.toString());
  }

  /** Made before by somebody else, or open to others: whoever writes there would be the board. */
  @Test
  void aFolderThatOthersMayWriteIsRefusedWithTheMend() throws Exception {
    Path in = Files.createDirectory(LocalCommandFolder.folder(ledger()));
    Files.setPosixFilePermissions(in, PosixFilePermissions.fromString("rwxrwxrwx"));
    Files.writeString(LocalCommandFolder.command(in, "g1"), "{\"request_id\":\"g1\"}");
    try (EventLog events = new EventLog(line -> log.add(line.text()));
        Ledger ledger = Ledger.open(new LedgerSettings(ledger(), 60, 30));
        LocalCommandFolder spool = LocalCommandFolder.open(ledger(), ledger, events)) {
      Program.await("a word", () -> !log.isEmpty());
      assertTrue(spool.take().isEmpty(), "taken from anybody");
      assertTrue(log.get(0).contains("may be written by others (mode 777)"), log.toString());
      assertTrue(log.get(0).contains("chmod 700"), log.toString());
      Files.setPosixFilePermissions(in, PosixFilePermissions.fromString("rwx------"));
      assertEquals(Optional.of("g1"), next(spool).get(0).requestId(), "mended");
    }
    assertEquals(1, log.size(), log.toString());
  }

  @Test
  void aFolderThatCannotBeIsToldOnce() throws Exception {
    Files.writeString(LocalCommandFolder.folder(ledger()), "a file");
    try (EventLog events = new EventLog(line -> log.add(line.text()));
        Ledger ledger = Ledger.open(new LedgerSettings(ledger(), 60, 30));
        LocalCommandFolder spool = LocalCommandFolder.open(ledger(), ledger, events)) {
      Thread.sleep(800);
      assertTrue(spool.take().isEmpty());
    }
    assertEquals(1, log.size(), log.toString());
    assertTrue(log.get(0).contains("cannot be taken"), log.toString());
  }
}
