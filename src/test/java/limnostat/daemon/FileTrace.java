package limnostat.daemon;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import limnostat.rig.Program;

/**
 * All changes that a process made to the files of a folder, in their order, as {@code filetrace.c}
 * writes them down.
 */
final class FileTrace {
  /** What was done to a file. */
  enum Kind {
    WRITE('W'),
    LENGTH('T'),
    SYNC('S'),
    REMOVE('U'),
    RENAME('R');

    private final char letter;

    Kind(char letter) {
      this.letter = letter;
    }

    static Kind of(char letter) {
      for (Kind kind : values()) {
        if (kind.letter == letter) {
          return kind;
        }
      }
      throw new IllegalArgumentException("no such entry in a trace: " + letter);
    }
  }

  /**
   * One change.
   *
   * @param name of the file; empty for the folder itself
   * @param offset of a write, or the new length
   * @param data of a write, or the new name
   */
  @SuppressWarnings("ArrayRecordComponent") // pages of a file; never compared
  record Change(Kind kind, String name, long offset, byte[] data) {
    @Override
    public String toString() {
      return kind + " " + name + " at " + offset + ", " + data.length + " bytes";
    }
  }

  private FileTrace() {}

  /** The library to be preloaded, built from its source. */
  static Path library(Path folder) throws IOException, InterruptedException {
    Path library = folder.resolve("filetrace.so");
    Program.output(
        "gcc",
        "-shared",
        "-fPIC",
        "-O1",
        "-o",
        library.toString(),
        Path.of("src", "test", "c", "filetrace.c").toString(),
        "-ldl",
        "-lpthread");
    return library;
  }

  static List<Change> read(Path file) throws IOException {
    ByteBuffer in = ByteBuffer.wrap(Files.readAllBytes(file)).order(ByteOrder.nativeOrder());
    List<Change> changes = new ArrayList<>();
    while (in.hasRemaining()) {
      Kind kind = Kind.of((char) in.get());
      String name = new String(bytes(in, in.getShort()), StandardCharsets.UTF_8);
      long offset = in.getLong();
      changes.add(new Change(kind, name, offset, bytes(in, in.getInt())));
    }
    return changes;
  }

  private static byte[] bytes(ByteBuffer in, int length) {
    byte[] bytes = new byte[length];
    in.get(bytes);
    return bytes;
  }
}
