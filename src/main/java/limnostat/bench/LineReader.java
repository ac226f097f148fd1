package limnostat.bench;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.util.Arrays;

/**
 * Byte lines with a length limit. A line above the limit is cut to one byte more than the limit.
 * Its length shows that it was too long. Do not parse it, because the part that is left may look
 * complete.
 */
final class LineReader {
  /** Longest valid line, bytes. */
  static final int LONGEST = 64 * 1024;

  private final InputStream in;
  private final byte[] buffer = new byte[16 * 1024];
  private int from;
  private int to;
  private long number;

  LineReader(InputStream in) {
    this.in = in;
  }

  /**
   * The next line without its line feed; null at the end of the input. The result is longer than
   * {@link #LONGEST} if the line was too long.
   */
  byte[] next() throws IOException {
    ByteArrayOutputStream begun = null;
    while (true) {
      for (int i = from; i < to; i++) {
        if (buffer[i] == '\n') {
          byte[] line = Arrays.copyOfRange(buffer, from, i);
          from = i + 1;
          number++;
          return begun == null ? line : joined(begun, line);
        }
      }
      if (from < to) {
        begun = begun == null ? new ByteArrayOutputStream() : begun;
        append(begun, buffer, from, to - from);
      }
      from = 0;
      to = in.read(buffer);
      if (to < 0) {
        to = 0;
        if (begun == null) {
          return null;
        }
        number++;
        return begun.toByteArray();
      }
    }
  }

  /** Number of the line that {@link #next} returned last, from 1. */
  long number() {
    return number;
  }

  private static byte[] joined(ByteArrayOutputStream start, byte[] rest) {
    append(start, rest, 0, rest.length);
    return start.toByteArray();
  }

  private static void append(ByteArrayOutputStream out, byte[] bytes, int offset, int length) {
    out.write(bytes, offset, Math.max(0, Math.min(length, LONGEST + 1 - out.size())));
  }
}
