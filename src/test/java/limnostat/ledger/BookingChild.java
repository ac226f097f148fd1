package limnostat.ledger;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.nio.file.Path;
import limnostat.actuate.Output;

/** Books rising amounts for ever and prints each one that is confirmed. */
public final class BookingChild {
  private BookingChild() {}

  public static void main(String[] args) throws Exception {
    Ledger ledger = Ledger.open(Samples.settings(Path.of(args[0])), Samples.FAST);
    double amount = ledger.booked().of(Output.CHLORINE);
    System.out.println(amount);
    while (true) {
      double next = ++amount;
      Moment now = Samples.at(next);
      ledger.offer(Samples.readings(now));
      ledger.offer(new Entry.State(("{\"n\":" + next + "}").getBytes(UTF_8), now, false));
      ledger.offer(new Entry.Booking(Output.CHLORINE, next, now));
      while (ledger.booked().of(Output.CHLORINE) < next) {
        Thread.onSpinWait();
      }
      System.out.println(next);
    }
  }
}
