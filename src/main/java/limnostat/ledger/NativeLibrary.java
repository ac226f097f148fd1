package limnostat.ledger;

import java.io.IOException;
import java.nio.file.DirectoryIteratorException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.sqlite.SQLiteJDBCLoader;
import org.tinylog.Logger;

/**
 * SQLite's native library. Unless {@code org.sqlite.lib.path} names an unpacked one, the driver
 * unpacks 1.1 MB at each start, and a killed process leaves it behind (measured). So the driver
 * gets our own folder, {@code FILE.native/PID.*}, and folders of dead processes are deleted.
 */
final class NativeLibrary {
  private static final String SHIPPED = "org.sqlite.lib.path";
  private static final String UNPACK = "org.sqlite.tmpdir";

  /** The number of the process that owns the folder, and a suffix that makes it unique. */
  private static final Pattern FOLDER = Pattern.compile("(\\d{1,18})(\\..*)?");

  private static boolean loaded;

  private NativeLibrary() {}

  /**
   * Loads the library, once per process. Call while owning the ledger.
   *
   * @param file absolute path of the ledger
   */
  static synchronized void load(Path file) throws LedgerException {
    if (loaded) {
      return;
    }
    // A folder that the installer chose belongs to the installer: it is used, but not emptied.
    if (System.getProperty(SHIPPED) == null && System.getProperty(UNPACK) == null) {
      System.setProperty(UNPACK, emptyFolder(file).toString());
    }
    try {
      SQLiteJDBCLoader.initialize();
    } catch (Exception e) { // declared by the driver
      throw refused(e);
    }
    loaded = true;
  }

  private static Path emptyFolder(Path file) throws LedgerException {
    Path folder = OwnFolder.natives(file);
    long pid = ProcessHandle.current().pid();
    try {
      OwnFolder.prepare(folder);
      try (DirectoryStream<Path> left = Files.newDirectoryStream(folder, "[0-9]*")) {
        for (Path old : left) {
          removeIfDead(old, pid);
        }
      }
      // Always a new one: an old folder with this process's number may have been impossible to
      // remove.
      return Files.createTempDirectory(folder, pid + ".");
    } catch (IOException | DirectoryIteratorException e) {
      throw new LedgerException(
          "ledger "
              + file
              + ": cannot prepare "
              + folder
              + " for SQLite's native library ("
              + e.getMessage()
              + "); that folder holds nothing of value",
          e);
    }
  }

  /** An unexpected entry, or one that cannot be removed, stays and does no harm. */
  private static void removeIfDead(Path old, long pid) {
    Matcher name = FOLDER.matcher(old.getFileName().toString());
    if (!name.matches()) {
      return;
    }
    long owner = Long.parseLong(name.group(1));
    if (owner != pid && ProcessHandle.of(owner).isPresent()) {
      return;
    }
    try {
      remove(old);
    } catch (IOException | DirectoryIteratorException e) {
      Logger.debug(e, "{} stays", old);
    }
  }

  private static void remove(Path folder) throws IOException {
    try (DirectoryStream<Path> files = Files.newDirectoryStream(folder)) {
      for (Path file : files) {
        Files.delete(file);
      }
    }
    Files.delete(folder);
  }

  private static LedgerException refused(Exception e) {
    String shipped = System.getProperty(SHIPPED);
    return new LedgerException(
        "SQLite's native library cannot be loaded from "
            + (shipped != null ? shipped : System.getProperty(UNPACK))
            + " ("
            + e.getMessage()
            + "); the folder must be writable, with 2 MB of room, and not on a mount with noexec:"
            + " make room, remount it with exec,"
            + " or unpack the library elsewhere and give that folder by -D"
            + SHIPPED
            + "=DIR",
        e);
  }
}
