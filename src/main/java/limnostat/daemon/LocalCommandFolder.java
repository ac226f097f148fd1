package limnostat.daemon;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.DirectoryIteratorException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.regex.Pattern;
import limnostat.ledger.Ledger;
import limnostat.ledger.OwnFolder;
import limnostat.scan.Command;
import limnostat.scan.ScanEvent;
import limnostat.wire.CommandReader;
import limnostat.wire.EventDocument;

/**
 * Commands from a person at the machine, without a broker: one file each, in a folder beside the
 * ledger that nobody else may write to ({@link OwnFolder}). A separate thread reads the folder,
 * since a disk may hang. A file is deleted before its command takes effect, so a crash may lose a
 * command but never repeats it. The answer is given once the ledger has the result, so a crash
 * loses nothing that was answered.
 */
public final class LocalCommandFolder implements AutoCloseable {
  private static final String COMMAND = ".json";
  private static final String ANSWER = ".answer";

  /** The same limit as for a command over the network. */
  private static final int BYTES_MAX = 4096;

  private static final int WAITING_MAX = 16;

  /** Irregular entries that are reported one by one. More than this is mischief. */
  private static final int ODD_MAX = 10;

  private static final long LOOK_EVERY_MS = 250;

  /** Ensures that no id leads out of the folder. */
  private static final Pattern ID = Pattern.compile("[0-9a-f-]{1,40}");

  /**
   * The answer to a person once the result is in the ledger.
   *
   * @param event the event that answers the command
   * @param mark the ledger's mark after everything that the command caused
   */
  private record Answer(String id, ScanEvent event, long mark) {}

  private final Path folder;
  private final Ledger ledger;
  private final EventLog log;
  private final BlockingQueue<Command.Request> taken = new ArrayBlockingQueue<>(WAITING_MAX);
  private final BlockingQueue<Answer> answers = new ArrayBlockingQueue<>(WAITING_MAX);
  private final Thread thread;

  // Used only by this object's own thread.
  private final Set<Path> odd = new HashSet<>();
  private Optional<Answer> due = Optional.empty();
  private boolean failing;

  private LocalCommandFolder(Path folder, Ledger ledger, EventLog log) {
    this.folder = folder;
    this.ledger = ledger;
    this.log = log;
    thread = new Thread(this::look, "spool");
    thread.setDaemon(true);
  }

  public static Path folder(Path ledgerFile) {
    return OwnFolder.commands(ledgerFile);
  }

  public static Path command(Path folder, String id) {
    return folder.resolve(id + COMMAND);
  }

  public static Path answer(Path folder, String id) {
    return folder.resolve(id + ANSWER);
  }

  /**
   * @param ledger an answer is given once the ledger has the result of the command
   */
  public static LocalCommandFolder open(Path ledgerFile, Ledger ledger, EventLog log) {
    LocalCommandFolder spool = new LocalCommandFolder(folder(ledgerFile), ledger, log);
    spool.thread.start();
    return spool;
  }

  /** Commands that arrived since the last call; never waits. */
  public List<Command.Request> take() {
    List<Command.Request> requests = new ArrayList<>();
    taken.drainTo(requests);
    return requests;
  }

  /** Answers those events that concern a person at the machine; never waits. */
  public void answered(List<ScanEvent> events) {
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
        && !answers.offer(new Answer(id, event, ledger.mark()))) {
      log.warn("the answer to a command at the board is lost: too many wait");
    }
  }

  private void look() {
    try {
      while (true) {
        try {
          OwnFolder.prepare(folder);
          collect();
          deliver();
          failing = false;
        } catch (IOException | DirectoryIteratorException e) {
          if (!failing) {
            log.warn("commands at the board cannot be taken: " + e.getMessage());
          }
          failing = true;
        }
        Thread.sleep(LOOK_EVERY_MS);
      }
    } catch (InterruptedException e) {
      // The process is ending.
      return;
    }
  }

  private void collect() throws IOException {
    try (DirectoryStream<Path> files = Files.newDirectoryStream(folder, "*" + COMMAND)) {
      for (Path file : files) {
        if (taken.remainingCapacity() == 0) {
          return;
        }
        if (!odd.contains(file)) {
          take(file);
        }
      }
    }
  }

  /** A file that cannot be read or deleted is reported once. The others are still taken. */
  private void take(Path file) {
    try {
      if (!OwnFolder.ours(file)) {
        throw new IOException("it belongs to user " + OwnFolder.owner(file));
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
    } catch (IOException e) {
      if (odd.size() < ODD_MAX) {
        log.warn(
            "a command at the board cannot be taken and is left alone until the next start: remove "
                + file
                + " ("
                + e
                + ")");
      }
      odd.add(file);
    }
  }

  private static byte[] read(Path file) throws IOException {
    if (!Files.isRegularFile(file, LinkOption.NOFOLLOW_LINKS)) {
      return new byte[0]; // a pipe would never end; refused as not JSON
    }
    try (InputStream in = Files.newInputStream(file, LinkOption.NOFOLLOW_LINKS)) {
      return in.readNBytes(BYTES_MAX + 1);
    }
  }

  private void deliver() throws IOException {
    while (due.isPresent() || !answers.isEmpty()) {
      Answer a = due.orElseGet(answers::poll);
      due = Optional.of(a);
      boolean written = ledger.committed(a.mark);
      if (!written && ledger.health().failingSinceS().isEmpty()) {
        return;
      }
      due = Optional.empty();
      ScanEvent event = written ? a.event : unwritten(a.event);
      Path whole = folder.resolve(a.id + ".part");
      Files.writeString(whole, EventDocument.text(event) + "\n", StandardCharsets.UTF_8);
      Files.move(whole, answer(folder, a.id), StandardCopyOption.ATOMIC_MOVE);
    }
  }

  /** The person waits for an answer, which must not promise what a power cut would undo. */
  private static ScanEvent unwritten(ScanEvent event) {
    return event instanceof ScanEvent.Accepted accepted
        ? new ScanEvent.Accepted(
            accepted.request(),
            Optional.of(
                accepted.remark().map(remark -> remark + "; ").orElse("")
                    + "the ledger cannot be written now: look at disk and log, and ask again after"
                    + " a power cut or a restart before it is mended"))
        : event;
  }

  /** Does not wait: an answer that has not been written by now is lost. */
  @Override
  public void close() {
    thread.interrupt();
  }
}
