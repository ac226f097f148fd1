package limnostat.scan;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.EnumMap;
import java.util.Map;
import java.util.Random;
import limnostat.actuate.Output;

/** What a ledger does to bookings: confirms them in order, late, and for a while not at all. */
final class ModelLedger {
  private record Booking(Output output, double amount) {}

  private final Random random;
  private final Map<Output, Double> booked = new EnumMap<>(Output.class);
  private final Map<Output, Double> asked = new EnumMap<>(Output.class);
  private final Deque<Booking> queue = new ArrayDeque<>();
  private boolean failing;

  ModelLedger(Random random) {
    this.random = random;
  }

  Map<Output, Double> booked() {
    return Map.copyOf(booked);
  }

  boolean failing() {
    return failing;
  }

  void scanned(ScanState state) {
    failing = random.nextInt(failing ? 30 : 1500) == 0 != failing;
    for (Output output : Output.values()) {
      double amount = state.of(output).account().requested();
      if (amount > 0 && !Double.valueOf(amount).equals(asked.put(output, amount))) {
        queue.add(new Booking(output, amount));
      }
    }
    while (!failing && !queue.isEmpty() && random.nextInt(3) > 0) {
      write(queue.remove());
    }
  }

  /** The process dies: of what is on its way, the first few may have been written. */
  void died() {
    while (!queue.isEmpty() && random.nextBoolean()) {
      write(queue.remove());
    }
    queue.clear();
    asked.clear();
    failing = false;
  }

  private void write(Booking booking) {
    booked.merge(booking.output, booking.amount, Math::max);
  }
}
