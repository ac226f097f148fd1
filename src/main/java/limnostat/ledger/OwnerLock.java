package limnostat.ledger;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;

/**
 * Ensures one owner per ledger: an exclusive lock on {@code FILE.lock}, which the kernel releases
 * with the process. The file is never deleted, since deleting it would allow two owners.
 */
final class OwnerLock implements AutoCloseable {
  /**
   * Ledgers that are open in this process. A POSIX lock belongs to the process and is lost when any
   * channel on its file is closed (java.nio.channels.FileLock). So a second attempt must not even
   * open the file.
   */
  private static final Set<Path> OPEN_HERE = ConcurrentHashMap.newKeySet();

  private final Path lockFile;
  private final FileChannel channel;

  private OwnerLock(Path lockFile, FileChannel channel) {
    this.lockFile = lockFile;
    this.channel = channel;
  }

  /**
   * @param file absolute path of the ledger
   */
  static OwnerLock take(Path file) throws LedgerException {
    Path folder = file.getParent();
    try {
      Path lockFile = folder.toRealPath().resolve(file.getFileName() + ".lock");
      if (!OPEN_HERE.add(lockFile)) {
        throw new LedgerException(
            "ledger " + file + ": this process has it open already; close it");
      }
      FileChannel channel = null;
      try {
        channel = FileChannel.open(lockFile, StandardOpenOption.CREATE, StandardOpenOption.WRITE);
        FileLock lock = channel.tryLock();
        if (lock != null) {
          return new OwnerLock(lockFile, channel);
        }
      } catch (IOException e) {
        release(lockFile, channel, e);
        throw e;
      }
      LedgerException refused =
          new LedgerException(
              "ledger "
                  + file
                  + ": another process has it open (lock on "
                  + lockFile
                  + "); stop that one, or give this one another [ledger] file");
      release(lockFile, channel, refused);
      throw refused;
    } catch (IOException e) {
      throw new LedgerException(
          "ledger "
              + file
              + ": cannot lock it in folder "
              + folder
              + " ("
              + e
              + "); the folder must exist and be writable for the user of the service",
          e);
    }
  }

  private static void release(Path lockFile, FileChannel channel, Exception cause) {
    OPEN_HERE.remove(lockFile);
    if (channel != null) {
      try {
        channel.close();
      } catch (IOException e) {
        cause.addSuppressed(e);
      }
    }
  }

  @Override
  public void close() throws IOException {
    channel.close();
    OPEN_HERE.remove(lockFile);
  }
}
