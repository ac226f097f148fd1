package limnostat.ledger;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.sql.SQLException;
import java.util.List;

/**
 * Makes a ledger under another name and renames it, so that a power cut leaves a complete ledger or
 * none. SQLite alone would leave an empty file or one with a rollback journal, and neither can be
 * told from a damaged ledger.
 */
final class NewFile {
  private static final String MAKING = ".new";

  private NewFile() {}

  static void makeUnlessThere(Path file, Tuning tuning)
      throws SQLException, IOException, LedgerException {
    if (Files.exists(file)) {
      return;
    }
    Path making = SetAside.suffixed(file, MAKING);
    for (String suffix : List.of("", "-journal", "-wal", "-shm")) {
      Files.deleteIfExists(SetAside.suffixed(making, suffix)); // left by an interrupted creation
    }
    try (Database database = Database.open(making, tuning)) {
      database.empty();
    }
    try (FileChannel content = FileChannel.open(making, StandardOpenOption.WRITE)) {
      content.force(true);
    }
    Files.move(making, file, StandardCopyOption.ATOMIC_MOVE);
    try (FileChannel folder = FileChannel.open(file.getParent(), StandardOpenOption.READ)) {
      folder.force(true);
    }
  }
}
