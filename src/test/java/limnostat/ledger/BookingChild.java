package limnostat.ledger;

import java.nio.file.Path;
import limnostat.actuate.Output;

/** Books rising amounts for ever and prints each one that is confirmed. */
public final class BookingChild {
  private BookingChild() {}

  public static void main(String[] args) throws Exception {
    Ledger ledger = FileLedger.open(Samples.settings(Path.of(args[0])), Samples.FAST);
    double amount = ledger.booked().of(Output.CHLORINE);
    System.out.println(amount);
    // So large that most kills fall into a commit, and some into a checkpoint.
    byte[] state = new byte[300_000];
    while (true) {
      double next = ++amount;
      Moment now = Samples.at(next);
      ledger.offer(Samples.readings(now));
      ledger.offer(new Entry.State(state, now, false));
      ledger.offer(new Entry.Booking(Output.CHLORINE, next, now));
      while (ledger.booked().of(Output.CHLORINE) < next) {
        Thread.onSpinWait();
      }
      System.out.println(next);
    }
  }
}
