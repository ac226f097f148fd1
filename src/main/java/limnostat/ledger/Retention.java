package limnostat.ledger;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.OptionalDouble;
import limnostat.config.LedgerSettings;

/**
 * Decides which readings are too old. Ids rise in the order of writing, so rows with an untrusted
 * clock are deleted with their neighbours. An untrusted wall clock deletes nothing.
 */
final class Retention {
  private static final double DAY_S = 86_400;

  /** Rows in one commit: few, so that a booking never waits for long. */
  private static final int SLICE_ROWS = 500;

  private final double keepS;
  private final long rowsMax;

  Retention(LedgerSettings settings) {
    keepS = settings.keepReadingsDays() * DAY_S;
    // For a board whose clock is never right, the row count decides; doubled, to err on the side of
    // keeping.
    rowsMax = (long) Math.ceil(2 * keepS / settings.readingsEveryS());
  }

  /**
   * The highest id to delete, 0 for none.
   *
   * @param unixTimeS trusted wall clock, Unix s, if there is one
   */
  long expiredId(Connection connection, OptionalDouble unixTimeS) throws SQLException {
    long byCount = Sql.number(connection, "SELECT coalesce(max(id), 0) FROM readings") - rowsMax;
    long byAge =
        unixTimeS.isPresent() ? expiredByAge(connection, unixTimeS.getAsDouble() - keepS) : 0;
    return Math.max(0, Math.max(byCount, byAge));
  }

  /** Both scans stop at their first hit, so they read little more than the rows to delete. */
  private static long expiredByAge(Connection connection, double oldestUnixS) throws SQLException {
    try (PreparedStatement query =
        connection.prepareStatement(
            "SELECT coalesce((SELECT id FROM readings WHERE clock_trusted = 1 AND unix_time_s < ?1"
                + " AND id < coalesce((SELECT id FROM readings WHERE clock_trusted = 1"
                + " AND unix_time_s >= ?1 ORDER BY id LIMIT 1), 9223372036854775807)"
                + " ORDER BY id DESC LIMIT 1), 0)")) {
      query.setDouble(1, oldestUnixS);
      try (ResultSet row = query.executeQuery()) {
        row.next();
        return row.getLong(1);
      }
    }
  }

  /** Deletes one slice in its own commit; returns false when nothing is left to delete. */
  static boolean deleteSlice(Connection connection, long expiredId) throws SQLException {
    try (PreparedStatement delete =
        connection.prepareStatement(
            "DELETE FROM readings WHERE id IN"
                + " (SELECT id FROM readings WHERE id <= ? ORDER BY id LIMIT "
                + SLICE_ROWS
                + ")")) {
      delete.setLong(1, expiredId);
      return delete.executeUpdate() == SLICE_ROWS;
    }
  }
}
