package limnostat.ledger;

import java.sql.SQLException;

/**
 * SQLite's primary result codes (SQLite documentation, "Result and Error Codes"), grouped by
 * remedy.
 */
enum SqliteError {
  BUSY,
  FULL,
  READ_ONLY,
  CANNOT_OPEN,
  DAMAGED,
  OTHER;

  static SqliteError of(SQLException error) {
    return switch (error.getErrorCode() & 0xff) {
      case 5, 6 -> BUSY;
      case 8 -> READ_ONLY;
      case 11, 26 -> DAMAGED;
      case 13 -> FULL;
      case 14 -> CANNOT_OPEN;
      default -> OTHER;
    };
  }

  /** Whether the same connection can continue once the cause is gone. */
  boolean passes() {
    return this == BUSY || this == FULL;
  }
}
