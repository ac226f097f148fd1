package limnostat.cli;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.regex.Pattern;
import limnostat.scan.Command;
import limnostat.scan.ScanEvent;
import limnostat.wire.CommandReader;
import limnostat.wire.EventDocument;

/**
 * Commands of a person at the machine, without any broker: one file each in a folder beside the
 * ledger, in which only those can write who may write there. A thread of its own looks into it, as
 * a disk may hang. A file is taken away before it counts, so a crash loses it and never doubles it.
 */
final class Spool implements AutoCloseable {
  private static final String COMMAND = ".json";
  private static final String ANSWER = ".answer";

  /** As for a command over the network. */
  private static final int BYTES_MAX = 4096;

  private static final int WAITING_MAX = 16;
  private static final long LOOK_EVERY_MS = 250;

  /** So that no id leads out of the folder. */
  private static final Pattern ID = Pattern.compile("[0-9a-f-]{1,40}");

  /**
   * @param text a JSON document, as on the topic {@code result} but without id and time
   */
  private record Answer(String id, String text) {}

  private final Path folder;
  private final EventLog log;
  private final BlockingQueue<Command.Request> taken = new ArrayBlockingQueue<>(WAITING_MAX);
  private final BlockingQueue<Answer> answers = new ArrayBlockingQueue<>(WAITING_MAX);
  private final Thread thread;
  private boolean failing;

  private Spool(Path folder, EventLog log) {
    this.folder = folder;
    this.log = log;
    thread = new Thread(this::look, "spool");
    thread.setDaemon(true);
  }

  static Path folder(Path ledgerFile) {
    return ledgerFile.resolveSibling(ledgerFile.getFileName() + ".commands");
  }

  static Path command(Path folder, String id) {
    return folder.resolve(id + COMMAND);
  }

  static Path answer(Path folder, String id) {
    return folder.resolve(id + ANSWER);
  }

  static Spool open(Path ledgerFile, EventLog log) {
    Spool spool = new Spool(folder(ledgerFile), log);
    spool.thread.start();
    return spool;
  }

  /** What came since the last time; never waits. */
  List<Command.Request> take() {
    List<Command.Request> requests = new ArrayList<>();
    taken.drainTo(requests);
    return requests;
  }

  /** Answers those of the events that are answers to a person at the machine; never waits. */
  void answered(List<ScanEvent> events) {
    for (ScanEvent event : events) {
      if (event instanceof ScanEvent.Accepted e) {
        answer(e.request(), e);
      } else if (event instanceof ScanEvent.Refused e) {
        answer(e.request(), e);
      } else if (event instanceof ScanEvent.AnsweredAgain e) {
        answer(e.request(), e);
      }
    }
  }

  private void answer(Command.Request request, ScanEvent event) {
    String id = request.requestId().orElse("");
    if (request.origin().equals(Command.Request.BOARD)
        && ID.matcher(id).matches()
        && !answers.offer(new Answer(id, EventDocument.text(event) + "\n"))) {
      log.warn("the answer to a command at the board is lost: too many wait");
    }
  }

  private void look() {
    try {
      while (true) {
        try {
          prepare();
          collect();
          deliver();
          failing = false;
        } catch (IOException e) {
          if (!failing) {
            log.warn("commands at the board cannot be taken: " + folder + " (" + e + ")");
          }
          failing = true;
        }
        Thread.sleep(LOOK_EVERY_MS);
      }
    } catch (InterruptedException e) {
      // The end of the process.
      return;
    }
  }

  /** A link would lead to a folder in which others may write. */
  private void prepare() throws IOException {
    if (!Files.isDirectory(folder, LinkOption.NOFOLLOW_LINKS)) {
      Files.createDirectory(
          folder,
          PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rwx------")));
    }
  }

  private void collect() throws IOException {
    try (DirectoryStream<Path> files = Files.newDirectoryStream(folder, "*" + COMMAND)) {
      for (Path file : files) {
        if (taken.remainingCapacity() == 0) {
          return;
        }
        byte[] document = read(file);
        Files.delete(file);
        taken.add(
            document.length > BYTES_MAX
                ? CommandReader.refused(
                    "longer than " + BYTES_MAX + " bytes",
                    Arrays.copyOf(document, BYTES_MAX),
                    Command.Request.BOARD)
                : CommandReader.read(document, Command.Request.BOARD));
      }
    }
  }

  private static byte[] read(Path file) throws IOException {
    if (!Files.isRegularFile(file, LinkOption.NOFOLLOW_LINKS)) {
      return new byte[0]; // a pipe would never end; it is refused as no JSON
    }
    try (InputStream in = Files.newInputStream(file, LinkOption.NOFOLLOW_LINKS)) {
      return in.readNBytes(BYTES_MAX + 1);
    }
  }

  private void deliver() throws IOException {
    for (Answer a = answers.poll(); a != null; a = answers.poll()) {
      Path whole = folder.resolve(a.id + ".part");
      Files.writeString(whole, a.text, StandardCharsets.UTF_8);
      Files.move(whole, answer(folder, a.id), StandardCopyOption.ATOMIC_MOVE);
    }
  }

  /** Waits for nothing: what is not answered by now is not. */
  @Override
  public void close() {
    thread.interrupt();
  }
}
