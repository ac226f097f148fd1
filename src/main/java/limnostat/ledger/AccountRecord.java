package limnostat.ledger;

import static java.nio.charset.StandardCharsets.US_ASCII;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.FileTime;
import java.util.List;
import java.util.Optional;

/**
 * The second record of the account, {@code FILE.account}. It holds the newest {@link Seal} in one
 * of two slots. They are written alternately, so that a torn write leaves the previous seal. The
 * slots are 64 kB apart, as a card may lose what lies next to the data that it writes. Each slot is
 * a page of 4 kB, of which one line of text is used. The record is written and flushed to the card
 * after each ledger commit that changes the account.
 */
final class AccountRecord {
  private static final int SLOTS = 2;
  private static final int SLOT_BYTES = 4096;
  private static final int SLOT_DISTANCE = 65_536;

  /**
   * What was read from the record.
   *
   * @param present whether the file exists
   * @param newest the newest slot that can be read
   * @param unreadable slots that were written and cannot be read
   * @param otherHand whether the file was changed after its newest slot was written
   */
  record Found(boolean present, Optional<Seal> newest, int unreadable, boolean otherHand) {
    static final Found NOTHING = new Found(false, Optional.empty(), 0, false);

    long commits() {
      return newest.map(Seal::commits).orElse(0L);
    }
  }

  private final Path file;
  private final long otherHandMs;
  private int next;
  private boolean begun;

  AccountRecord(Path ledgerFile, long otherHandMs) {
    this.otherHandMs = otherHandMs;
    file = SetAside.suffixed(ledgerFile, SetAside.ACCOUNT);
  }

  Path file() {
    return file;
  }

  /** Reads both slots. The next write keeps the newest. */
  Found read() throws IOException {
    List<ByteBuffer> contents;
    try (FileChannel channel = FileChannel.open(file, StandardOpenOption.READ)) {
      contents = List.of(slot(channel, 0), slot(channel, 1));
    } catch (NoSuchFileException e) {
      next = 0;
      return Found.NOTHING;
    }
    Optional<SealLine> newest = Optional.empty();
    int unwritten = 0;
    int unreadable = 0;
    for (int i = 0; i < SLOTS; i++) {
      ByteBuffer content = contents.get(i);
      Optional<SealLine> slot = parse(content);
      if (slot.isPresent()) {
        if (newest.isEmpty() || slot.get().seal().commits() > newest.get().seal().commits()) {
          newest = slot;
          next = 1 - i;
        }
      } else if (content.equals(ByteBuffer.allocate(SLOT_BYTES))) {
        unwritten++;
      } else {
        unreadable++;
      }
    }
    begun = newest.isPresent();
    return new Found(
        true,
        newest.map(SealLine::seal),
        // The first write fills both slots, so an unwritten one was lost.
        unreadable + (begun ? unwritten : 0),
        begun && changedAfter(newest.get().writtenUnixMs()));
  }

  private static ByteBuffer slot(FileChannel channel, int number) throws IOException {
    ByteBuffer content = ByteBuffer.allocate(SLOT_BYTES);
    while (content.hasRemaining()
        && channel.read(content, (long) number * SLOT_DISTANCE + content.position()) >= 0) {
      // until it is full or the file ends
    }
    return content.position() == SLOT_BYTES
        ? content.flip()
        : ByteBuffer.wrap("cut".getBytes(US_ASCII));
  }

  /**
   * A restored copy may carry the timestamps of the original, but only the kernel sets the time of
   * the last change (inode(7), ctime).
   */
  private boolean changedAfter(long writtenUnixMs) throws IOException {
    FileTime changed = (FileTime) Files.getAttribute(file, "unix:ctime");
    return changed.toMillis() > writtenUnixMs + otherHandMs;
  }

  /** Makes an empty file, unless there is one. */
  void ensure() throws IOException {
    if (!Files.exists(file)) {
      make(new byte[0]);
    }
  }

  /** On return the seal is on the disk. */
  void write(Seal seal) throws IOException {
    if (!begun || !Files.exists(file)) {
      // Both slots at once, so that an empty slot is one that was lost.
      make(bytes(seal));
      begun = true;
    }
    try (FileChannel channel = FileChannel.open(file, StandardOpenOption.WRITE)) {
      write(channel, next, bytes(seal));
      channel.force(false);
    }
    next = 1 - next;
  }

  private void make(byte[] content) throws IOException {
    Path fresh = SetAside.suffixed(file, ".new");
    try (FileChannel channel =
        FileChannel.open(
            fresh,
            StandardOpenOption.CREATE,
            StandardOpenOption.TRUNCATE_EXISTING,
            StandardOpenOption.WRITE)) {
      for (int i = 0; i < SLOTS; i++) {
        write(channel, i, content);
      }
      channel.force(true);
    }
    Files.move(fresh, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
    try (FileChannel folder = FileChannel.open(file.getParent(), StandardOpenOption.READ)) {
      folder.force(true); // otherwise a power cut may lose the name
    }
    next = 0;
  }

  private static void write(FileChannel channel, int slot, byte[] content) throws IOException {
    ByteBuffer page = ByteBuffer.allocate(SLOT_BYTES).put(content).rewind();
    while (page.hasRemaining()) {
      channel.write(page, (long) slot * SLOT_DISTANCE + page.position());
    }
  }

  private static byte[] bytes(Seal seal) {
    return new SealLine(seal, System.currentTimeMillis()).text().getBytes(US_ASCII);
  }

  private static Optional<SealLine> parse(ByteBuffer content) {
    String all = US_ASCII.decode(content.duplicate()).toString();
    int end = all.indexOf('\0');
    return end < 0 || !all.substring(end).equals("\0".repeat(all.length() - end))
        ? Optional.empty()
        : SealLine.read(all.substring(0, end));
  }
}
