package limnostat.ledger;

import java.nio.file.Path;

/** Opens a ledger, prints what happened, closes. */
public final class OpeningChild {
  private OpeningChild() {}

  public static void main(String[] args) {
    try (Ledger ledger = Ledger.open(Samples.settings(Path.of(args[0])))) {
      System.out.println("opened, fresh " + ledger.restored().fresh());
    } catch (LedgerException e) {
      System.out.println("refused: " + e.getMessage());
    }
  }
}
