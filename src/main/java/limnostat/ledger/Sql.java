package limnostat.ledger;

import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;

/**
 * Transactions by our own statements: the driver's commit would begin the next transaction at once.
 */
final class Sql {
  private Sql() {}

  @FunctionalInterface
  interface Work {
    void on(Statement statement) throws SQLException;
  }

  /** Commits all of it or nothing. With IMMEDIATE, a busy lock shows before the first change. */
  static void inTransaction(Connection connection, Work work) throws SQLException {
    try (Statement statement = connection.createStatement()) {
      statement.executeUpdate("BEGIN IMMEDIATE");
      try {
        work.on(statement);
        statement.executeUpdate("COMMIT");
      } catch (SQLException | RuntimeException e) {
        try {
          statement.executeUpdate("ROLLBACK");
        } catch (SQLException rollback) {
          e.addSuppressed(rollback); // SQLite may have rolled back by itself; then this fails
        }
        throw e;
      }
    }
  }

  /** First column of the first row. */
  static long number(Connection connection, String query) throws SQLException {
    try (Statement statement = connection.createStatement();
        ResultSet row = statement.executeQuery(query)) {
      row.next();
      return row.getLong(1);
    }
  }

  /** First column of the first row. */
  static String text(Connection connection, String query) throws SQLException {
    try (Statement statement = connection.createStatement();
        ResultSet row = statement.executeQuery(query)) {
      row.next();
      return row.getString(1);
    }
  }
}
