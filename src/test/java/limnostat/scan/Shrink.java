package limnostat.scan;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * Makes a failing history smaller: the shortest prefix that fails, and of its events only those
 * without which the same rule holds. Delta debugging (ddmin, Zeller and Hildebrandt 2002, from
 * memory), so the result cannot be smaller by one event. Deterministic.
 */
final class Shrink {
  private Shrink() {}

  static Proof.Failure smallest(Proof.Failure failure, Step step) {
    Proof.Failure least = failure;
    // Events at the end of a prefix that was cut come after the failure and are not in its list.
    int parts = 2;
    while (true) {
      List<Chance.Event> events = least.events();
      if (events.isEmpty()) {
        return least;
      }
      parts = Math.min(parts, events.size());
      Optional<Proof.Failure> smaller = without(least, parts, step);
      if (smaller.isPresent()) {
        least = smaller.get();
        parts = Math.max(2, parts - 1);
      } else if (parts >= events.size()) {
        return least;
      } else {
        parts *= 2;
      }
    }
  }

  /** The same failure without one of so many parts of its events. */
  private static Optional<Proof.Failure> without(Proof.Failure failure, int parts, Step step) {
    List<Chance.Event> events = failure.events();
    int size = (events.size() + parts - 1) / parts;
    for (int from = 0; from < events.size(); from += size) {
      List<Chance.Event> rest = new ArrayList<>(events);
      rest.subList(from, Math.min(events.size(), from + size)).clear();
      Set<Chance.Event> only = new LinkedHashSet<>(rest);
      Optional<Proof.Failure> again =
          Proof.run(failure.seed(), Optional.of(only), step, seen -> {}, failure.scan() + 1);
      if (again.isPresent() && again.get().rule().equals(failure.rule())) {
        return again;
      }
    }
    return Optional.empty();
  }

  /** For people: how to see it again, what it took, what went in and what came out. */
  static String describe(Proof.Failure failure) {
    StringBuilder text =
        new StringBuilder(
            String.format(
                "%s: %s%n-Dlimnostat.seed=%d, scan %d, after %d events:%n",
                failure.rule(),
                failure.message(),
                failure.seed(),
                failure.scan(),
                failure.events().size()));
    failure.events().forEach(event -> text.append("  ").append(event).append('\n'));
    failure
        .seen()
        .ifPresent(
            seen ->
                text.append("start ")
                    .append(seen.start())
                    .append(", at ")
                    .append(seen.atS())
                    .append(" s\nin   ")
                    .append(seen.in())
                    .append("\nout  ")
                    .append(seen.out().outputs())
                    .append("\nof   ")
                    .append(seen.out().demand())
                    .append("\nby   ")
                    .append(seen.out().permission())
                    .append("\nseen ")
                    .append(seen.out().measured())
                    .append("\nwith ")
                    .append(seen.settings())
                    .append('\n'));
    return text.toString();
  }
}
