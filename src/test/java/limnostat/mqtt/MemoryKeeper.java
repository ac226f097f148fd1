package limnostat.mqtt;

import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.Consumer;

/** Keeps what a ledger would, in memory; the test says when what was handed over is kept. */
final class MemoryKeeper implements Keeper {
  /** What to read once a commit has come through. */
  private record Wish(long after, int most, Consumer<Page> reader) {}

  final SortedMap<Long, Message> kept = new TreeMap<>();
  private final SortedMap<Long, Message> handed = new TreeMap<>();
  private Optional<Wish> wish = Optional.empty();
  private Runnable listener = () -> {};
  private long keptTo;
  boolean failing;

  /** All of it is kept now, and what was asked for is read. */
  void commit() {
    kept.putAll(handed);
    handed.keySet().stream().max(Long::compare).ifPresent(n -> keptTo = Math.max(keptTo, n));
    handed.clear();
    listener.run();
    Optional<Wish> asked = wish;
    wish = Optional.empty();
    asked.ifPresent(
        w ->
            w.reader()
                .accept(
                    new Page(
                        kept.tailMap(w.after() + 1).values().stream().limit(w.most()).toList(),
                        keptTo)));
  }

  @Override
  public Found found() {
    return new Found(kept.size(), kept.isEmpty() ? 0 : kept.lastKey());
  }

  @Override
  public boolean keep(Message message) {
    handed.put(message.number(), message);
    return true;
  }

  @Override
  public void forget(long number) {
    handed.remove(number);
    kept.remove(number);
  }

  @Override
  public boolean safe(long number) {
    return failing || keptTo >= number;
  }

  @Override
  public void read(long after, int most, Consumer<Page> reader) {
    wish = Optional.of(new Wish(after, most, reader));
  }

  @Override
  public void onChange(Runnable told) {
    listener = told;
  }

  List<Long> numbers() {
    return List.copyOf(kept.keySet());
  }
}
