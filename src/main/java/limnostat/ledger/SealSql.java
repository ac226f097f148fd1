package limnostat.ledger;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.Optional;

/** Table {@code seal}: its only row. Writes go in the caller's transaction. */
final class SealSql {
  private SealSql() {}

  static void write(Connection connection, Seal seal) throws SQLException {
    try (PreparedStatement replace =
        connection.prepareStatement(
            "INSERT OR REPLACE INTO seal (id, ledger_id, machine, commits, checksum)"
                + " VALUES (1, ?, ?, ?, ?)")) {
      replace.setString(1, seal.ledgerId());
      replace.setString(2, seal.machine());
      replace.setLong(3, seal.commits());
      replace.setInt(4, seal.checksum());
      replace.executeUpdate();
    }
  }

  /** The seal in the file; {@link Proof} decides whether it is true. */
  static Optional<Seal> read(Connection connection, Restored restored) throws SQLException {
    try (PreparedStatement query =
            connection.prepareStatement("SELECT ledger_id, machine, commits, checksum FROM seal");
        ResultSet row = query.executeQuery()) {
      return row.next()
          ? Optional.of(
              new Seal(
                  row.getString(1),
                  row.getString(2),
                  row.getLong(3),
                  restored.booked(),
                  row.getInt(4)))
          : Optional.empty();
    }
  }
}
