package limnostat.daemon;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import java.util.function.UnaryOperator;
import limnostat.daemon.FileTrace.Change;
import limnostat.daemon.FileTrace.Kind;

/**
 * A disk that promises what POSIX has it promise and nothing else: what was flushed is there after
 * a power cut; of all that was written since, any part may be, in any order, and the last of it
 * torn. Names come and go with the folder's flush, a new file's name with its own at the latest.
 */
final class SimulatedDisk {
  /** What a disk writes whole or not at all: a sector, the least that there is. */
  private static final int SECTOR_BYTES = 512;

  /** What became of that which was not flushed. */
  enum Fate {
    /** All of it reached the disk. */
    ALL,
    /** Nothing did. */
    NOTHING,
    /** Each change did or did not. */
    SOME,
    /** Each did or did not, in another order, and some in part. */
    SOME_TORN_AND_SHUFFLED,
    /** All that one file got did, and nothing of the others. */
    ONE_FILE
  }

  /** A file, whatever it is called. */
  private static final class Content {
    private byte[] flushed = new byte[0];
    private final List<Change> waiting = new ArrayList<>();

    Content copy() {
      Content copy = new Content();
      copy.flushed = flushed.clone();
      copy.waiting.addAll(waiting);
      return copy;
    }

    void flush() {
      for (Change change : waiting) {
        flushed = applied(flushed, change);
      }
      waiting.clear();
    }
  }

  /** A change of the folder that waits for a flush. */
  private record Renaming(Kind kind, String name, String to, Content content) {}

  private final Map<String, Content> now = new LinkedHashMap<>();
  private final Map<String, Content> flushedNames = new LinkedHashMap<>();
  private final List<Renaming> waiting = new ArrayList<>();

  void take(Change change) {
    switch (change.kind()) {
      case WRITE, LENGTH -> content(change.name()).waiting.add(change);
      case SYNC -> sync(change.name());
      case REMOVE -> {
        Content gone = now.remove(change.name());
        if (gone != null) {
          waiting.add(new Renaming(Kind.REMOVE, change.name(), "", gone));
        }
      }
      case RENAME -> {
        String to = new String(change.data(), StandardCharsets.UTF_8);
        Content moved = now.remove(change.name());
        now.put(to, moved);
        waiting.add(new Renaming(Kind.RENAME, change.name(), to, moved));
      }
    }
  }

  /** A file that is new has a name that waits, as a write has. */
  private Content content(String name) {
    return now.computeIfAbsent(
        name,
        n -> {
          Content made = new Content();
          waiting.add(new Renaming(Kind.WRITE, n, "", made));
          return made;
        });
  }

  private void sync(String name) {
    if (name.isEmpty()) {
      waiting.forEach(w -> rename(flushedNames, w));
      waiting.clear();
      return;
    }
    Content content = content(name);
    content.flush();
    waiting.removeIf(
        w -> {
          boolean own = w.kind == Kind.WRITE && w.content == content;
          if (own) {
            rename(flushedNames, w);
          }
          return own;
        });
  }

  private static void rename(Map<String, Content> names, Renaming w) {
    switch (w.kind) {
      case WRITE -> names.put(w.name, w.content);
      case REMOVE -> names.remove(w.name, w.content);
      case RENAME -> {
        names.remove(w.name, w.content);
        names.put(w.to, w.content);
      }
      case LENGTH, SYNC -> throw new IllegalStateException("no change of a name: " + w);
    }
  }

  /** The files after a power cut now. */
  Map<String, byte[]> cut(Fate fate, Random random) {
    Map<String, Content> names = new LinkedHashMap<>(flushedNames);
    int renamings =
        switch (fate) {
          case ALL -> waiting.size();
          case NOTHING -> 0;
          default -> random.nextInt(waiting.size() + 1);
        };
    waiting.subList(0, renamings).forEach(w -> rename(names, w));
    List<String> order = new ArrayList<>(names.keySet());
    String chosen = order.isEmpty() ? "" : order.get(random.nextInt(order.size()));
    Map<String, byte[]> files = new TreeMap<>();
    names.forEach(
        (name, content) -> files.put(name, cut(content, fate, name.equals(chosen), random)));
    return files;
  }

  private static byte[] cut(Content content, Fate fate, boolean chosen, Random random) {
    byte[] bytes = content.flushed.clone();
    List<Change> reached = new ArrayList<>(content.waiting);
    switch (fate) {
      case ALL -> {}
      case NOTHING -> reached.clear();
      case ONE_FILE -> {
        if (!chosen) {
          reached.clear();
        }
      }
      case SOME, SOME_TORN_AND_SHUFFLED -> reached.removeIf(c -> random.nextBoolean());
    }
    if (fate == Fate.SOME_TORN_AND_SHUFFLED) {
      Collections.shuffle(reached, random);
      reached.replaceAll(c -> random.nextInt(4) == 0 ? torn(c, random) : c);
    }
    for (Change change : reached) {
      bytes = applied(bytes, change);
    }
    return bytes;
  }

  /** The first sectors of it, or the last. */
  private static Change torn(Change change, Random random) {
    int sectors = change.data().length / SECTOR_BYTES;
    if (change.kind() != Kind.WRITE || sectors < 2) {
      return change;
    }
    int at = SECTOR_BYTES * (1 + random.nextInt(sectors - 1));
    return random.nextBoolean()
        ? new Change(Kind.WRITE, change.name(), change.offset(), Arrays.copyOf(change.data(), at))
        : new Change(
            Kind.WRITE,
            change.name(),
            change.offset() + at,
            Arrays.copyOfRange(change.data(), at, change.data().length));
  }

  private static byte[] applied(byte[] bytes, Change change) {
    if (change.kind() == Kind.LENGTH) {
      return Arrays.copyOf(bytes, (int) change.offset());
    }
    int end = (int) change.offset() + change.data().length;
    byte[] next = end > bytes.length ? Arrays.copyOf(bytes, end) : bytes;
    System.arraycopy(change.data(), 0, next, (int) change.offset(), change.data().length);
    return next;
  }

  SimulatedDisk copy() {
    SimulatedDisk copy = new SimulatedDisk();
    IdentityHashMap<Content, Content> copies = new IdentityHashMap<>();
    UnaryOperator<Content> of = content -> copies.computeIfAbsent(content, Content::copy);
    now.forEach((name, content) -> copy.now.put(name, of.apply(content)));
    flushedNames.forEach((name, content) -> copy.flushedNames.put(name, of.apply(content)));
    waiting.forEach(w -> copy.waiting.add(new Renaming(w.kind, w.name, w.to, of.apply(w.content))));
    return copy;
  }
}
