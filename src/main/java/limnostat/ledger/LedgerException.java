package limnostat.ledger;

import java.nio.file.Path;
import java.sql.SQLException;

/** A ledger that cannot be used: what failed, where (the file), and the remedy. */
public final class LedgerException extends Exception {
  private static final long serialVersionUID = 1L;

  private final boolean disk;

  /** A fault that only a person can fix: another owner, or another program's file. */
  LedgerException(String message) {
    super(message);
    disk = false;
  }

  /** A fault of the disk. */
  LedgerException(String message, Throwable cause) {
    super(message, cause);
    disk = true;
  }

  /** Whether the disk is the cause, so that opening may succeed once the disk works again. */
  public boolean disk() {
    return disk;
  }

  /** Adds the file and the remedy to SQLite's message. */
  static LedgerException of(Path file, SQLException error) {
    return new LedgerException(
        "ledger " + file + ": " + error.getMessage() + "; " + mend(error), error);
  }

  private static String mend(SQLException error) {
    return switch (SqliteError.of(error)) {
      case BUSY -> "another program holds it locked: close that program";
      case FULL -> "the disk is full: make room";
      case READ_ONLY ->
          "file or file system is read-only: check the mount and that file and folder belong to"
              + " the user of the service";
      case CANNOT_OPEN ->
          "the folder must exist and be writable for the user of the service: check [ledger] file";
      case DAMAGED -> "the file is damaged: it is renamed aside when it is next opened";
      case OTHER -> "check the disk, its mount and the system's log";
    };
  }
}
