package limnostat.ledger;

import java.util.Collection;
import java.util.EnumMap;
import java.util.Map;
import limnostat.actuate.Output;

/**
 * What is durably booked.
 *
 * @param cumulativeAmounts highest committed cumulative amount of each output that has one, g of
 *     chlorine or mL of acid
 */
public record Booked(Map<Output, Double> cumulativeAmounts) {
  public Booked {
    cumulativeAmounts = Map.copyOf(cumulativeAmounts);
  }

  /** Highest committed cumulative amount, g or mL; 0 where nothing is booked. */
  public double of(Output output) {
    return cumulativeAmounts.getOrDefault(output, 0.0);
  }

  static Booked of(Collection<Entry.Booking> bookings) {
    Map<Output, Double> amounts = new EnumMap<>(Output.class);
    bookings.forEach(b -> amounts.merge(b.output(), b.cumulativeAmount(), Math::max));
    return new Booked(amounts);
  }
}
