package limnostat.ledger;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;
import java.sql.Connection;
import java.sql.SQLException;
import java.util.Optional;
import org.sqlite.SQLiteConfig;

/** The open file: one connection, used by one thread at a time. */
final class Database implements AutoCloseable {

  /**
   * Identifies the files that the connection writes to, even if their names now point elsewhere.
   */
  private record Identity(Object data, Object log) {
    static Identity of(Path file) throws IOException {
      return new Identity(key(file), key(SetAside.suffixed(file, "-wal")));
    }

    private static Object key(Path file) throws IOException {
      return Files.readAttributes(file, BasicFileAttributes.class).fileKey();
    }
  }

  private final Path file;
  private final Connection connection;
  private final Identity identity;

  private Database(Path file, Connection connection, Identity identity) {
    this.file = file;
    this.connection = connection;
    this.identity = identity;
  }

  /** Opens a file that was checked, or makes one, and brings its schema up to date. */
  static Database open(Path file, Tuning tuning) throws SQLException, IOException, LedgerException {
    Connection connection = config(tuning).createConnection("jdbc:sqlite:" + file);
    try {
      Schema.migrate(file, connection);
      return new Database(file, connection, Identity.of(file));
    } catch (SQLException | IOException | LedgerException | RuntimeException e) {
      try {
        connection.close();
      } catch (SQLException close) {
        e.addSuppressed(close);
      }
      throw e;
    }
  }

  /** Sets every option: the driver's defaults differ, and synchronous applies per connection. */
  private static SQLiteConfig config(Tuning tuning) {
    SQLiteConfig config = new SQLiteConfig();
    config.setJournalMode(SQLiteConfig.JournalMode.WAL);
    config.setSynchronous(SQLiteConfig.SynchronousMode.FULL);
    config.enforceForeignKeys(true);
    config.setBusyTimeout(tuning.busyMs());
    if (tuning.pagesMax() > 0) {
      config.setMaxPageCount(tuning.pagesMax());
    }
    return config;
  }

  /**
   * Commits a batch. On return it is on the disk, in the file that has the ledger's name.
   *
   * @param seal the ledger's account with this batch, if the batch changes it
   * @throws LedgerException the file was moved or deleted while in use, which SQLite does not
   *     notice
   */
  void write(Batch batch, Optional<Seal> seal) throws SQLException, LedgerException {
    Sql.inTransaction(
        connection,
        statement -> {
          BatchSql.write(connection, batch);
          if (seal.isPresent()) {
            SealSql.write(connection, seal.get());
          }
        });
    try {
      if (identity.equals(Identity.of(file))) {
        return;
      }
    } catch (IOException e) {
      throw moved(e);
    }
    throw moved(new IOException("another file bears its name"));
  }

  private LedgerException moved(IOException cause) {
    return new LedgerException(
        "ledger "
            + file
            + ": the file or its -wal was moved or deleted while in use; put it back while the"
            + " program is stopped, or leave it: a new one is begun",
        cause);
  }

  Connection connection() {
    return connection;
  }

  /** Moves as much of the log into the file as readers allow. */
  void checkpoint() throws SQLException {
    Sql.number(connection, "PRAGMA wal_checkpoint(PASSIVE)");
  }

  /** Moves all of the log into the file, so that the file alone is complete. */
  void empty() throws SQLException {
    Sql.number(connection, "PRAGMA wal_checkpoint(TRUNCATE)");
  }

  @Override
  public void close() throws SQLException {
    connection.close();
  }
}
