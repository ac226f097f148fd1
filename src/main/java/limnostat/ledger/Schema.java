package limnostat.ledger;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.util.List;

/** Brings a file to the newest schema. {@code PRAGMA user_version} holds the file's version. */
final class Schema {
  /** Step n takes a file from version n - 1 to n. Never edit a released step. */
  private static final List<String> STEPS =
      List.of("schema-1.sql", "schema-2.sql", "schema-3.sql", "schema-4.sql", "schema-5.sql");

  static final int VERSION = STEPS.size();

  /** The first version with the table {@code seal}. */
  static final int WITH_SEAL = 5;

  private static final int APPLICATION_ID = 0x4C494D4E;

  private Schema() {}

  /**
   * The version of a file, 0 for an empty one.
   *
   * @throws LedgerException the file is newer than the program, or not a ledger
   */
  static int found(Path file, Connection connection) throws SQLException, LedgerException {
    int found = (int) Sql.number(connection, "PRAGMA user_version");
    long applicationId = Sql.number(connection, "PRAGMA application_id");
    boolean empty = Sql.number(connection, "SELECT count(*) FROM sqlite_schema") == 0;
    if (applicationId != APPLICATION_ID && !(empty && found == 0)) {
      throw new LedgerException(
          "ledger " + file + ": is another program's database; give another [ledger] file");
    }
    if (found > VERSION) {
      throw new LedgerException(
          "ledger "
              + file
              + ": has schema version "
              + found
              + ", this program knows up to "
              + VERSION
              + "; install the newer program again, or give another [ledger] file");
    }
    return found;
  }

  /**
   * Migrates in one transaction, which also proves that the file can be written.
   *
   * @throws LedgerException the file is newer than the program, or not a ledger
   */
  static void migrate(Path file, Connection connection) throws SQLException, LedgerException {
    int found = found(file, connection);
    Sql.inTransaction(
        connection,
        statement -> {
          for (String step : STEPS.subList(found, VERSION)) {
            statement.executeUpdate(resource(step));
          }
          statement.executeUpdate("PRAGMA user_version = " + VERSION);
        });
  }

  private static String resource(String name) {
    try (InputStream in = Schema.class.getResourceAsStream(name)) {
      if (in == null) {
        throw new IllegalStateException("resource " + name + " is missing from the program's jar");
      }
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException("resource " + name + " in the program's jar", e);
    }
  }
}
