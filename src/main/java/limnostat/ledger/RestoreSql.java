package limnostat.ledger;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import limnostat.actuate.Output;
import org.sqlite.SQLiteErrorCode;
import org.sqlite.SQLiteException;

/** Reads what a restart needs. */
final class RestoreSql {
  private static final String MOMENT = "monotonic_s, unix_time_s, clock_trusted, boot_id";

  private RestoreSql() {}

  /** The content of the file. Whether to trust it is decided later. */
  static Restored read(Connection connection) throws SQLException {
    return new Restored(
        state(connection),
        bookings(connection),
        Optional.empty(),
        Optional.empty(),
        false,
        false,
        Schema.VERSION);
  }

  private static Optional<Restored.SavedState> state(Connection connection) throws SQLException {
    try (PreparedStatement query =
            connection.prepareStatement(
                "SELECT json, " + MOMENT + " FROM state JOIN boot ON boot.id = state.boot");
        ResultSet row = query.executeQuery()) {
      return row.next()
          ? Optional.of(new Restored.SavedState(row.getBytes("json"), moment(row)))
          : Optional.empty();
    }
  }

  private static Map<Output, Restored.LastBooking> bookings(Connection connection)
      throws SQLException {
    Map<Output, Restored.LastBooking> bookings = new EnumMap<>(Output.class);
    try (PreparedStatement query =
        connection.prepareStatement(
            "SELECT cumulative_amount, "
                + MOMENT
                + " FROM booking JOIN boot ON boot.id = booking.boot WHERE output = ?")) {
      for (Output output : Output.values()) {
        query.setString(1, output.key());
        try (ResultSet row = query.executeQuery()) {
          if (row.next()) {
            bookings.put(
                output, new Restored.LastBooking(row.getDouble("cumulative_amount"), moment(row)));
          }
        }
      }
    }
    return bookings;
  }

  private static Moment moment(ResultSet row) throws SQLException {
    try {
      return new Moment(
          row.getDouble("monotonic_s"),
          row.getDouble("unix_time_s"),
          row.getBoolean("clock_trusted"),
          row.getString("boot_id"));
    } catch (IllegalArgumentException e) {
      throw new SQLiteException(e.getMessage(), SQLiteErrorCode.SQLITE_CORRUPT);
    }
  }
}
