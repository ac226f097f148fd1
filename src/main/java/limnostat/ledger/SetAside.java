package limnostat.ledger;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/**
 * Sets a file that is not trusted aside, with the files that belong to it. It is renamed, so that a
 * new one can be made, or copied.
 */
final class SetAside {
  /** Suffix of the second record of the account. */
  static final String ACCOUNT = ".account";

  private static final List<String> SUFFIXES = List.of("", "-wal", "-shm");

  /** More copies would fill the card if the cause returns at each start. */
  private static final int COPIES_MAX = 5;

  private static final String NAME = ".damaged-";

  private SetAside() {}

  /**
   * Whether there is something that cannot be a complete ledger: an empty file, or a log without
   * its file.
   */
  static boolean isRemnant(Path file) throws IOException {
    if (Files.exists(file)) {
      return Files.isRegularFile(file) && Files.size(file) == 0;
    }
    Path log = suffixed(file, "-wal");
    return Files.exists(log) && Files.size(log) > 0;
  }

  /** Renames the file and returns its new path: {@code FILE.damaged-UNIXTIME}. */
  static Path move(Path file) throws IOException {
    Path target = free(file);
    for (String suffix : SUFFIXES) {
      Path from = suffixed(file, suffix);
      if (Files.exists(from)) {
        Files.move(from, suffixed(target, suffix));
      }
    }
    return target;
  }

  /**
   * Copies the file, its log and the record of its account. Nobody may have it open. If there is no
   * room for a copy, the file is renamed.
   *
   * @return the path of the copy; empty if there are enough copies already
   */
  static Optional<Path> copy(Path file) throws IOException {
    if (copies(file) >= COPIES_MAX) {
      return Optional.empty();
    }
    Path target = free(file);
    List<String> suffixes = List.of("", "-wal", ACCOUNT);
    try {
      for (String suffix : suffixes) {
        Path from = suffixed(file, suffix);
        if (Files.exists(from)) {
          Files.copy(from, suffixed(target, suffix));
        }
      }
      return Optional.of(target);
    } catch (IOException e) {
      for (String suffix : suffixes) {
        Files.deleteIfExists(suffixed(target, suffix));
      }
      return Optional.of(move(file));
    }
  }

  private static int copies(Path file) throws IOException {
    Pattern name = Pattern.compile(Pattern.quote(file.getFileName() + NAME) + "[0-9]+");
    try (Stream<Path> all = Files.list(file.getParent())) {
      return (int) all.filter(f -> name.matcher(f.getFileName().toString()).matches()).count();
    }
  }

  private static Path free(Path file) {
    // On a board without a clock battery, the same second may come again.
    long unixTimeS = System.currentTimeMillis() / 1000;
    Path target = target(file, unixTimeS);
    while (taken(target)) {
      unixTimeS++;
      target = target(file, unixTimeS);
    }
    return target;
  }

  private static boolean taken(Path target) {
    return SUFFIXES.stream().anyMatch(suffix -> Files.exists(suffixed(target, suffix)));
  }

  private static Path target(Path file, long unixTimeS) {
    return suffixed(file, NAME + unixTimeS);
  }

  static Path suffixed(Path file, String suffix) {
    return file.resolveSibling(file.getFileName() + suffix);
  }
}
