package limnostat.ledger;

import java.io.IOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import org.sqlite.SQLiteJDBCLoader;

/**
 * SQLite's native library. Unless {@code org.sqlite.lib.path} names an unpacked one, the driver
 * unpacks 1.1 MB at each start and a killed process leaves it behind (measured), so that it gets a
 * folder of ours, {@code FILE.native/PID}, and folders of dead processes are removed.
 */
final class NativeLibrary {
  private static final String SHIPPED = "org.sqlite.lib.path";
  private static final String UNPACK = "org.sqlite.tmpdir";

  private static boolean loaded;

  private NativeLibrary() {}

  /**
   * Loads the library, once a process. Call while owning the ledger.
   *
   * @param file absolute path of the ledger
   */
  static synchronized void load(Path file) throws LedgerException {
    if (loaded) {
      return;
    }
    // A folder that the installer chose is the installer's: it is used, and not emptied.
    if (System.getProperty(SHIPPED) == null && System.getProperty(UNPACK) == null) {
      System.setProperty(UNPACK, emptyFolder(file).toString());
    }
    try {
      SQLiteJDBCLoader.initialize();
    } catch (Exception e) { // declared so by the driver
      throw refused(e);
    }
    loaded = true;
  }

  private static Path emptyFolder(Path file) throws LedgerException {
    Path folder = file.resolveSibling(file.getFileName() + ".native");
    long pid = ProcessHandle.current().pid();
    try {
      Files.createDirectories(folder);
      try (DirectoryStream<Path> left = Files.newDirectoryStream(folder, "[0-9]*")) {
        for (Path old : left) {
          long owner = Long.parseLong(old.getFileName().toString());
          if (owner == pid || ProcessHandle.of(owner).isEmpty()) {
            remove(old);
          }
        }
      }
      return Files.createDirectory(folder.resolve(Long.toString(pid)));
    } catch (IOException | NumberFormatException e) {
      throw new LedgerException(
          "ledger "
              + file
              + ": cannot prepare "
              + folder
              + " for SQLite's native library ("
              + e
              + "); remove that folder, it holds nothing of value",
          e);
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
