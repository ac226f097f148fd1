package limnostat.rig;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;

/** Looks into a ledger that no process has open. */
public final class LedgerFile {
  private LedgerFile() {}

  public static void assertIntact(Path file) throws SQLException {
    assertEquals("ok", text(file, "PRAGMA integrity_check"));
  }

  public static String text(Path file, String query) throws SQLException {
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file);
        Statement statement = connection.createStatement();
        ResultSet row = statement.executeQuery(query)) {
      row.next();
      return row.getString(1);
    }
  }
}
