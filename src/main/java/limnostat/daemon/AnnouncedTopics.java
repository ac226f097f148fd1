package limnostat.daemon;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/**
 * The retained topics outside our own prefix that were ever sent to a broker, kept in a file beside
 * the ledger. If discovery is turned off, or its prefix changes, no stale topic must stay on the
 * broker. A topic stays on the list forever, since nobody knows whether the broker was reachable
 * when it was removed.
 */
final class AnnouncedTopics {
  /** Enough for more than a dozen sites with both conventions. A longer file is not ours. */
  private static final int TOPICS_MAX = 2000;

  private final Path file;
  private final EventLog log;

  AnnouncedTopics(Path ledgerFile, EventLog log) {
    this.file = ledgerFile.resolveSibling(ledgerFile.getFileName() + ".announced");
    this.log = log;
  }

  /**
   * Records what will be announced from now on.
   *
   * @return topics that were announced before and no longer are, in their original order
   */
  List<String> replace(List<String> now) {
    Set<String> ever = read();
    List<String> gone = ever.stream().filter(topic -> !now.contains(topic)).toList();
    if (ever.addAll(now)) {
      write(ever);
    }
    return gone;
  }

  private Set<String> read() {
    try {
      if (!Files.exists(file)) {
        return new LinkedHashSet<>();
      }
      List<String> lines = Files.readAllLines(file);
      if (lines.size() > TOPICS_MAX) {
        throw new IOException("it has " + lines.size() + " lines");
      }
      return new LinkedHashSet<>(lines);
    } catch (IOException e) {
      log.warn(
          "what was announced before may stay on the broker: "
              + file
              + " cannot be read ("
              + e
              + "); remove the file, and retained topics that nobody feeds");
      return new LinkedHashSet<>();
    }
  }

  private void write(Set<String> topics) {
    Path fresh = file.resolveSibling(file.getFileName() + ".new");
    try {
      Files.write(fresh, topics);
      Files.move(fresh, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
    } catch (IOException e) {
      log.warn(
          "what is announced now may stay on the broker when it is switched off: "
              + file
              + " cannot be written ("
              + e
              + "); make the ledger's folder writable");
    }
  }
}
