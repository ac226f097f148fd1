package limnostat.ledger;

import static limnostat.ledger.Samples.at;
import static limnostat.ledger.Samples.await;

import java.nio.file.Files;
import java.nio.file.Path;
import limnostat.actuate.Output;

/** Fills a small file system, makes room again, and prints what the ledger made of it. */
public final class FullDiskChild {
  private FullDiskChild() {}

  public static void main(String[] args) throws Exception {
    Path folder = Path.of(args[0]);
    Path file = folder.resolve("ledger.db");
    Path filler = Files.write(folder.resolve("filler"), new byte[300_000]);
    try (Ledger ledger = FileLedger.open(Samples.settings(file), Samples.FAST)) {
      ledger.offer(new Entry.Booking(Output.ACID, 30, at(1)));
      await("the first booking", () -> ledger.booked().of(Output.ACID) == 30);
      String ballast = "\"" + "x".repeat(20_000) + "\"";
      for (int i = 0; ledger.health().failingSinceS().isEmpty(); i++) {
        long commits = ledger.health().commits();
        ledger.offer(new Entry.Event(at(i), "ballast", ballast, true));
        await(
            "a commit, or none",
            () ->
                ledger.health().commits() > commits || ledger.health().failingSinceS().isPresent());
      }
      System.out.println(ledger.health().lastError().orElseThrow());
      ledger.offer(new Entry.Booking(Output.CHLORINE, 5, at(2)));
      Thread.sleep(500);
      System.out.println("while full " + ledger.booked().of(Output.CHLORINE));
      Files.delete(filler);
      await("the second booking", () -> ledger.booked().of(Output.CHLORINE) == 5);
      System.out.println("failing " + ledger.health().failingSinceS().isPresent());
    }
    System.out.println(
        Samples.column(
            file, "SELECT output || ' ' || cumulative_amount FROM booking ORDER BY output"));
    System.out.println("integrity " + Samples.column(file, "PRAGMA integrity_check"));
  }
}
