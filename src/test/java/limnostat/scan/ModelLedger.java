package limnostat.scan;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.EnumMap;
import java.util.Map;
import limnostat.actuate.Output;

/** What a ledger does to bookings: confirms them in order, late, and for a while not at all. */
final class ModelLedger {
  private record Booking(Output output, double amount) {}

  private final Chance chance;
  private final Map<Output, Double> booked = new EnumMap<>(Output.class);
  private final Map<Output, Double> asked = new EnumMap<>(Output.class);
  private final Deque<Booking> queue = new ArrayDeque<>();
  private final Turn fails = new Turn("ledger fails", 1500, 30);
  private boolean failing;

  ModelLedger(Chance chance) {
    this.chance = chance;
  }

  Map<Output, Double> booked() {
    return Map.copyOf(booked);
  }

  boolean failing() {
    return failing;
  }

  void scanned(ScanState state) {
    failing = fails.next(chance);
    for (Output output : Output.values()) {
      double amount = state.of(output).account().requested();
      if (amount > 0 && !Double.valueOf(amount).equals(asked.put(output, amount))) {
        queue.add(new Booking(output, amount));
      }
    }
    while (!failing && !queue.isEmpty() && chance.nextInt(3) > 0) {
      write(queue.remove());
    }
  }

  /** The process dies: of what is on its way, the first few may have been written. */
  void died() {
    while (!queue.isEmpty() && chance.nextBoolean()) {
      write(queue.remove());
    }
    queue.clear();
    asked.clear();
    fails.end();
    failing = false;
  }

  private void write(Booking booking) {
    booked.merge(booking.output, booking.amount, Math::max);
  }
}
