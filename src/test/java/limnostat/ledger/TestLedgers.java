package limnostat.ledger;

import limnostat.config.LedgerSettings;

/** Ledgers in their files for tests of other packages, with less patience. */
public final class TestLedgers {
  private TestLedgers() {}

  /**
   * @param batchEveryS what is not urgent is committed so often, s
   * @param checkpointEveryS the log is moved into the file so often, s
   */
  public static Ledger busy(LedgerSettings settings, double batchEveryS, double checkpointEveryS)
      throws LedgerException {
    return FileLedger.open(
        settings, new Tuning(batchEveryS, 1, 60, 6, 3000, 2000, 0, checkpointEveryS, 2000));
  }

  /** One whose files were made from those of another time, which is nobody's hand. */
  public static Ledger ofImage(LedgerSettings settings) throws LedgerException {
    return FileLedger.open(settings, new Tuning(0.01, 0.02, 0.1, 5, 50, 100, 0, 3600, 1L << 50));
  }
}
