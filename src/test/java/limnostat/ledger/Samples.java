package limnostat.ledger;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;
import limnostat.config.LedgerSettings;

/** Entries and settings for tests, and a second, plain connection to look at the file. */
final class Samples {
  static final Tuning FAST = new Tuning(0.01, 0.02, 0.1, 5, 50, 100, 0, 3600, 1L << 50);

  /** Nothing that is not urgent is committed after the first batch. */
  static final Tuning PATIENT = new Tuning(3600, 0.02, 0.1, 5, 50, 100, 0, 3600, 1L << 50);

  private Samples() {}

  static LedgerSettings settings(Path file) {
    return new LedgerSettings(file, 60, 30);
  }

  static Moment at(double seconds) {
    return new Moment(seconds, 1_800_000_000 + seconds, true, "boot-1");
  }

  static Entry.Readings readings(double seconds) {
    return readings(at(seconds));
  }

  static Entry.Readings readings(Moment moment) {
    OptionalDouble none = OptionalDouble.empty();
    return new Entry.Readings(
        moment,
        OptionalDouble.of(7.2),
        OptionalDouble.of(Double.NaN),
        none,
        OptionalDouble.of(1.5),
        none,
        none,
        OptionalDouble.of(0.25),
        none,
        none);
  }

  static Entry.Event event(double seconds, boolean urgent) {
    return new Entry.Event(at(seconds), "kind", "{\"at\":" + (long) seconds + "}", urgent);
  }

  /** Waits for what must come; the limit only ends a failed test. */
  static void await(String what, BooleanSupplier condition) throws InterruptedException {
    long byNs = System.nanoTime() + TimeUnit.SECONDS.toNanos(30);
    while (!condition.getAsBoolean()) {
      if (System.nanoTime() > byNs) {
        throw new AssertionError("never came: " + what);
      }
      Thread.sleep(2);
    }
  }

  static Connection connect(Path file) throws SQLException {
    return DriverManager.getConnection("jdbc:sqlite:" + file);
  }

  /** First column of all rows, as text. */
  static List<String> column(Path file, String query) throws SQLException {
    try (Connection connection = connect(file);
        Statement statement = connection.createStatement();
        ResultSet rows = statement.executeQuery(query)) {
      List<String> values = new ArrayList<>();
      while (rows.next()) {
        values.add(rows.getString(1));
      }
      return values;
    }
  }

  static void execute(Path file, String sql) throws SQLException {
    try (Connection connection = connect(file);
        Statement statement = connection.createStatement()) {
      statement.executeUpdate(sql);
    }
  }
}
