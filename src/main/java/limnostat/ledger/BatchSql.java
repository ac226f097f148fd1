package limnostat.ledger;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.sql.Types;
import java.util.List;
import java.util.OptionalDouble;

/** Writes a batch into the tables, within the caller's transaction. */
final class BatchSql {
  private static final String MOMENT = "monotonic_s, unix_time_s, clock_trusted, boot";
  private static final String MOMENT_VALUES = "?, ?, ?, (SELECT id FROM boot WHERE boot_id = ?)";
  private static final int AFTER_MOMENT = 5;

  private BatchSql() {}

  static void write(Connection connection, Batch batch) throws SQLException {
    boots(connection, batch);
    bookings(connection, batch.bookings());
    if (batch.state().isPresent()) {
      state(connection, batch.state().get());
    }
    given(connection, batch.given());
    readings(connection, batch.readings());
    journal(connection, batch.journal());
    OutboxSql.add(connection, batch.outgoing().added());
    OutboxSql.remove(connection, batch.outgoing().removed());
  }

  private static void boots(Connection connection, Batch batch) throws SQLException {
    try (PreparedStatement insert =
        connection.prepareStatement("INSERT OR IGNORE INTO boot (boot_id) VALUES (?)")) {
      for (String bootId : batch.bootIds()) {
        insert.setString(1, bootId);
        insert.executeUpdate();
      }
    }
  }

  private static void bookings(Connection connection, List<Entry.Booking> bookings)
      throws SQLException {
    try (PreparedStatement upsert =
        connection.prepareStatement(
            "INSERT INTO booking ("
                + MOMENT
                + ", output, cumulative_amount) VALUES ("
                + MOMENT_VALUES
                + ", ?, ?) ON CONFLICT (output) DO UPDATE SET"
                + " cumulative_amount = excluded.cumulative_amount,"
                + " monotonic_s = excluded.monotonic_s, unix_time_s = excluded.unix_time_s,"
                + " clock_trusted = excluded.clock_trusted, boot = excluded.boot"
                + " WHERE excluded.cumulative_amount > booking.cumulative_amount")) {
      for (Entry.Booking booking : bookings) {
        set(upsert, booking.moment());
        upsert.setString(AFTER_MOMENT, booking.output().key());
        upsert.setDouble(AFTER_MOMENT + 1, booking.cumulativeAmount());
        upsert.executeUpdate();
      }
    }
  }

  /** Deletes bookings that are impossible. */
  static void keepBookings(Connection connection, double most) throws SQLException {
    try (PreparedStatement delete =
        connection.prepareStatement(
            "DELETE FROM booking WHERE cumulative_amount NOT BETWEEN 0 AND ?")) {
      delete.setDouble(1, most);
      delete.executeUpdate();
    }
  }

  private static void state(Connection connection, Entry.State state) throws SQLException {
    try (PreparedStatement replace =
        connection.prepareStatement(
            "INSERT OR REPLACE INTO state (id, "
                + MOMENT
                + ", json) VALUES (1, "
                + MOMENT_VALUES
                + ", ?)")) {
      set(replace, state.moment());
      replace.setBytes(AFTER_MOMENT, state.json());
      replace.executeUpdate();
    }
  }

  /**
   * Adds only the amount above the total that the ledger already has. So a batch can be written
   * again if its commit succeeded but was reported as failed.
   */
  private static void given(Connection connection, List<Entry.Given> given) throws SQLException {
    try (PreparedStatement add =
            connection.prepareStatement(
                "INSERT INTO given (hour_unix_s, output, amount) SELECT ?1, ?2, ?4 - known FROM"
                    + " (SELECT max(?3, coalesce((SELECT cumulative_amount FROM given_until"
                    + " WHERE output = ?2), 0)) AS known) WHERE ?4 > known"
                    + " ON CONFLICT DO UPDATE SET amount = amount + excluded.amount");
        PreparedStatement until =
            connection.prepareStatement(
                "INSERT INTO given_until (output, cumulative_amount) VALUES (?, ?)"
                    + " ON CONFLICT DO UPDATE SET cumulative_amount ="
                    + " max(cumulative_amount, excluded.cumulative_amount)")) {
      for (Entry.Given amount : given) {
        add.setLong(1, amount.hourUnixS());
        add.setString(2, amount.output().key());
        add.setDouble(3, amount.from());
        add.setDouble(4, amount.to());
        add.executeUpdate();
        until.setString(1, amount.output().key());
        until.setDouble(2, amount.to());
        until.executeUpdate();
      }
    }
  }

  private static void readings(Connection connection, List<Entry.Readings> rows)
      throws SQLException {
    try (PreparedStatement insert =
        connection.prepareStatement(
            "INSERT INTO readings ("
                + MOMENT
                + ", ph, orp_mv, water_c, free_chlorine_mg_l, free_chlorine_sd_mg_l,"
                + " demand_mg_l_day, duty, chlorine_g, acid_ml) VALUES ("
                + MOMENT_VALUES
                + ", ?, ?, ?, ?, ?, ?, ?, ?, ?)")) {
      for (Entry.Readings row : rows) {
        set(insert, row.moment());
        List<OptionalDouble> values =
            List.of(
                row.ph(),
                row.orpMv(),
                row.waterC(),
                row.freeChlorineMgL(),
                row.freeChlorineSdMgL(),
                row.demandMgLDay(),
                row.duty(),
                row.chlorineG(),
                row.acidMl());
        for (int i = 0; i < values.size(); i++) {
          set(insert, AFTER_MOMENT + i, values.get(i));
        }
        insert.executeUpdate();
      }
    }
  }

  private static void journal(Connection connection, List<Entry.Journal> lines)
      throws SQLException {
    try (PreparedStatement event = insert(connection, "event", "kind, json");
        PreparedStatement test = insert(connection, "water_test", "json");
        PreparedStatement addition = insert(connection, "addition", "json");
        PreparedStatement setting = insert(connection, "setting", "name, json, origin")) {
      for (Entry.Journal line : lines) {
        if (line instanceof Entry.Event e) {
          run(event, e.moment(), e.kind(), e.json());
        } else if (line instanceof Entry.WaterTest t) {
          run(test, t.moment(), t.json());
        } else if (line instanceof Entry.Addition a) {
          run(addition, a.moment(), a.json());
        } else if (line instanceof Entry.Setting s) {
          run(setting, s.moment(), s.name(), s.json(), s.origin());
        }
      }
    }
  }

  private static PreparedStatement insert(Connection connection, String table, String columns)
      throws SQLException {
    String values = ", ?".repeat(columns.split(",", -1).length);
    return connection.prepareStatement(
        "INSERT INTO "
            + table
            + " ("
            + MOMENT
            + ", "
            + columns
            + ") VALUES ("
            + MOMENT_VALUES
            + values
            + ")");
  }

  private static void run(PreparedStatement insert, Moment moment, String... texts)
      throws SQLException {
    set(insert, moment);
    for (int i = 0; i < texts.length; i++) {
      insert.setString(AFTER_MOMENT + i, texts[i]);
    }
    insert.executeUpdate();
  }

  private static void set(PreparedStatement statement, Moment moment) throws SQLException {
    statement.setDouble(1, moment.monotonicS());
    statement.setDouble(2, moment.unixTimeS());
    statement.setBoolean(3, moment.clockTrusted());
    statement.setString(4, moment.bootId());
  }

  private static void set(PreparedStatement statement, int index, OptionalDouble value)
      throws SQLException {
    if (value.isPresent()) {
      statement.setDouble(index, value.getAsDouble());
    } else {
      statement.setNull(index, Types.REAL);
    }
  }
}
