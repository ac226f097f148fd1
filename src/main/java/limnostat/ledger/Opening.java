package limnostat.ledger;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Collectors;
import org.sqlite.SQLiteConfig;
import org.sqlite.SQLiteErrorCode;
import org.sqlite.SQLiteException;

/**
 * Opens a ledger. It is first checked without writing anything, so that a ledger that is not
 * trusted can be set aside unchanged. Then it is opened for use.
 */
final class Opening {
  private Opening() {}

  /**
   * An open file and what was in it.
   *
   * @param standing the account from which its next seal is made
   */
  record Opened(
      Database database,
      AccountRecord record,
      Standing standing,
      Restored restored,
      Outgoing.Found outgoing) {}

  /**
   * What the check found in a file.
   *
   * @param version schema version, 0 for an empty file
   */
  private record Seen(int version, Restored restored, Optional<Seal> seal) {
    static final Seen NOTHING =
        new Seen(
            0,
            new Restored(
                Optional.empty(),
                Map.of(),
                Optional.empty(),
                Optional.empty(),
                false,
                false,
                Schema.VERSION),
            Optional.empty());

    Proof proof(AccountRecord.Found record) {
      boolean intact =
          seal.isPresent()
              && seal.get()
                  .equals(
                      Seal.of(
                          seal.get().ledgerId(),
                          seal.get().machine(),
                          seal.get().commits(),
                          restored.booked(),
                          restored.state()));
      return new Proof(version > 0, seal, intact, restored.booked(), record);
    }
  }

  /** Opens the ledger when a process starts. */
  static Opened first(Path file, Tuning tuning, String machine) throws LedgerException {
    return on(
        file,
        () -> {
          Optional<Path> aside =
              SetAside.isRemnant(file) ? Optional.of(SetAside.move(file)) : Optional.empty();
          Seen seen = Seen.NOTHING;
          if (Files.isRegularFile(file)) {
            try {
              seen = look(file);
            } catch (SQLException e) {
              if (!damaged(e)) {
                throw e;
              }
              aside = Optional.of(SetAside.move(file));
            }
          }
          AccountRecord record = new AccountRecord(file, tuning.otherHandMs());
          AccountRecord.Found found = record.read();
          Optional<String> doubt =
              aside.isPresent() ? Optional.of("it was damaged") : seen.proof(found).doubt(machine);
          if (doubt.isPresent() && aside.isEmpty() && Files.exists(file)) {
            aside = SetAside.copy(file);
          }
          return open(file, tuning, machine, record, found, seen, doubt, aside);
        });
  }

  private static Opened open(
      Path file,
      Tuning tuning,
      String machine,
      AccountRecord record,
      AccountRecord.Found found,
      Seen seen,
      Optional<String> doubt,
      Optional<Path> aside)
      throws SQLException, IOException, LedgerException {
    Map<limnostat.actuate.Output, Restored.LastBooking> possible =
        seen.restored.bookings().entrySet().stream()
            .filter(e -> Proof.possible(e.getValue().cumulativeAmount()))
            .collect(Collectors.toMap(Map.Entry::getKey, Map.Entry::getValue));
    Restored restored =
        new Restored(
            seen.restored.state(),
            possible,
            doubt,
            aside,
            seen.version == 0 && doubt.isEmpty(),
            !machine.isEmpty() && seen.seal.isPresent(),
            Schema.VERSION);
    Standing standing =
        new Standing(
            seen.seal.map(Seal::ledgerId).orElseGet(() -> UUID.randomUUID().toString()),
            machine,
            Math.max(seen.seal.map(Seal::commits).orElse(0L), found.commits() + found.unreadable()),
            restored);
    NewFile.makeUnlessThere(file, tuning);
    Database database = Database.open(file, tuning);
    try {
      if (doubt.isEmpty()) {
        record.ensure();
      }
      if (possible.size() < seen.restored.bookings().size()) {
        BatchSql.keepBookings(database.connection(), Proof.BOOKED_MAX);
      }
      return new Opened(
          database, record, standing, restored, OutboxSql.found(database.connection()));
    } catch (SQLException | IOException e) {
      database.close();
      throw e;
    }
  }

  /** Opens it again while the process runs; everything that matters is in memory. */
  static Database again(Path file, Tuning tuning) throws LedgerException {
    return on(
        file,
        () -> {
          if (SetAside.isRemnant(file)) {
            SetAside.move(file);
          } else if (Files.isRegularFile(file)) {
            try {
              look(file);
            } catch (SQLException e) {
              if (!damaged(e)) {
                throw e;
              }
              SetAside.move(file);
            }
          }
          NewFile.makeUnlessThere(file, tuning);
          return Database.open(file, tuning);
        });
  }

  /** Reads the file without changing it or its log. */
  private static Seen look(Path file) throws SQLException, LedgerException {
    SQLiteConfig config = new SQLiteConfig();
    config.setReadOnly(true);
    try (Connection connection = config.createConnection("jdbc:sqlite:" + file)) {
      String check = Sql.text(connection, "PRAGMA quick_check(1)");
      if (!check.equals("ok")) {
        throw new SQLiteException("quick_check: " + check, SQLiteErrorCode.SQLITE_CORRUPT);
      }
      int version = Schema.found(file, connection);
      if (version == 0) {
        return Seen.NOTHING;
      }
      Restored restored = RestoreSql.read(connection);
      return new Seen(
          version,
          restored,
          version >= Schema.WITH_SEAL ? SealSql.read(connection, restored) : Optional.empty());
    }
  }

  /** Whether the fault lies in the file itself. A missing table counts as such a fault. */
  private static boolean damaged(SQLException e) {
    return SqliteError.of(e) == SqliteError.DAMAGED
        || e.getErrorCode() == SQLiteErrorCode.SQLITE_ERROR.code;
  }

  private interface Attempt<T> {
    T make() throws SQLException, IOException, LedgerException;
  }

  private static <T> T on(Path file, Attempt<T> attempt) throws LedgerException {
    try {
      return attempt.make();
    } catch (SQLException e) {
      throw LedgerException.of(file, e);
    } catch (IOException e) {
      throw new LedgerException(
          "ledger "
              + file
              + ": cannot be read or renamed ("
              + e
              + "); check that file and folder belong to the user of the service",
          e);
    }
  }
}
