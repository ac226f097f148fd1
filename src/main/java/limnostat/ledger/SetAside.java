package limnostat.ledger;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;

/** Renames a damaged file, with its log and index, so that a new one can be begun. */
final class SetAside {
  private static final List<String> SUFFIXES = List.of("", "-wal", "-shm");

  private SetAside() {}

  /** Whether something is there that cannot be a whole ledger: an empty file, or a log without. */
  static boolean isRemnant(Path file) throws IOException {
    if (Files.exists(file)) {
      return Files.isRegularFile(file) && Files.size(file) == 0;
    }
    Path log = suffixed(file, "-wal");
    return Files.exists(log) && Files.size(log) > 0;
  }

  /** Returns where the file went: {@code FILE.damaged-UNIXTIME}. */
  static Path move(Path file) throws IOException {
    // Without a clock of its own a board may live the same second again.
    long unixTimeS = System.currentTimeMillis() / 1000;
    Path target = target(file, unixTimeS);
    while (taken(target)) {
      unixTimeS++;
      target = target(file, unixTimeS);
    }
    for (String suffix : SUFFIXES) {
      Path from = suffixed(file, suffix);
      if (Files.exists(from)) {
        Files.move(from, suffixed(target, suffix));
      }
    }
    return target;
  }

  private static boolean taken(Path target) {
    return SUFFIXES.stream().anyMatch(suffix -> Files.exists(suffixed(target, suffix)));
  }

  private static Path target(Path file, long unixTimeS) {
    return suffixed(file, ".damaged-" + unixTimeS);
  }

  static Path suffixed(Path file, String suffix) {
    return file.resolveSibling(file.getFileName() + suffix);
  }
}
