package limnostat.ledger;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;

/**
 * Table {@code outbox}: the messages that wait for the broker. Writes go in the caller's
 * transaction.
 */
final class OutboxSql {
  private OutboxSql() {}

  /** Changes nothing if the batch is repeated although it was committed. */
  static void add(Connection connection, List<Entry.Message> messages) throws SQLException {
    try (PreparedStatement insert =
        connection.prepareStatement(
            "INSERT OR IGNORE INTO outbox (number, topic, worth, payload) VALUES (?, ?, ?, ?)")) {
      for (Entry.Message message : messages) {
        insert.setLong(1, message.number());
        insert.setString(2, message.topic());
        insert.setString(3, message.worth());
        insert.setBytes(4, message.payload());
        insert.executeUpdate();
      }
    }
  }

  static void remove(Connection connection, Collection<Long> numbers) throws SQLException {
    try (PreparedStatement delete =
        connection.prepareStatement("DELETE FROM outbox WHERE number = ?")) {
      for (long number : numbers) {
        delete.setLong(1, number);
        delete.executeUpdate();
      }
    }
  }

  static Outgoing.Found found(Connection connection) throws SQLException {
    return new Outgoing.Found(
        (int) Sql.number(connection, "SELECT count(*) FROM outbox"),
        Sql.number(connection, "SELECT coalesce(max(number), 0) FROM outbox"));
  }

  /** The next messages by number. */
  static List<Entry.Message> after(Connection connection, long number, int most)
      throws SQLException {
    List<Entry.Message> messages = new ArrayList<>();
    try (PreparedStatement query =
        connection.prepareStatement(
            "SELECT number, topic, worth, payload FROM outbox WHERE number > ? ORDER BY number"
                + " LIMIT ?")) {
      query.setLong(1, number);
      query.setInt(2, most);
      try (ResultSet row = query.executeQuery()) {
        while (row.next()) {
          messages.add(
              new Entry.Message(
                  row.getLong("number"),
                  row.getString("topic"),
                  row.getString("worth"),
                  row.getBytes("payload"),
                  false));
        }
      }
    }
    return messages;
  }
}
