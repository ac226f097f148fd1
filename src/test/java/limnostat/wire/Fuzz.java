package limnostat.wire;

import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.Random;

/** Documents spoilt at random, always the same ones for a seed. */
final class Fuzz {
  private static final List<String> TOKENS =
      List.of(
          "null",
          "true",
          "NaN",
          "Infinity",
          "-1",
          "1e400",
          "-1e400",
          "1e-400",
          "0.1e1",
          "{}",
          "[]",
          "\"\"",
          "\"\\ud800\"",
          "\"a\\u0000b\"",
          "\"NaN\"",
          "99999999999999999999",
          "\"type\":1,",
          ",",
          ":",
          "{",
          "}",
          "[",
          "]",
          "\"",
          "\\",
          "//",
          "'",
          "\uFEFF",
          "\u0000",
          "é",
          "\"t\":");

  private final Random random;

  Fuzz(long seed) {
    random = new Random(seed);
  }

  byte[] spoilt(List<String> documents) {
    byte[] bytes = documents.get(random.nextInt(documents.size())).getBytes(StandardCharsets.UTF_8);
    int times = 1 + random.nextInt(4);
    for (int i = 0; i < times; i++) {
      bytes = once(bytes);
    }
    return bytes;
  }

  private byte[] once(byte[] bytes) {
    int at = random.nextInt(bytes.length + 1);
    switch (random.nextInt(6)) {
      case 0: // a token put in
        byte[] token = TOKENS.get(random.nextInt(TOKENS.size())).getBytes(StandardCharsets.UTF_8);
        return joined(bytes, at, token, at);
      case 1: // a value replaced
        int colon = new String(bytes, StandardCharsets.ISO_8859_1).indexOf(':', at);
        if (colon < 0) {
          return bytes;
        }
        int end = colon + 1;
        while (end < bytes.length && bytes[end] != ',' && bytes[end] != '}') {
          end++;
        }
        byte[] value = TOKENS.get(random.nextInt(TOKENS.size())).getBytes(StandardCharsets.UTF_8);
        return joined(bytes, colon + 1, value, end);
      case 2: // cut short
        return joined(bytes, at, new byte[0], bytes.length);
      case 3: // a stretch left out
        return joined(bytes, at, new byte[0], Math.min(bytes.length, at + random.nextInt(12)));
      case 4: // a stretch twice
        int to = Math.min(bytes.length, at + random.nextInt(40));
        return joined(bytes, to, Arrays.copyOfRange(bytes, at, to), to);
      default: // any byte
        return joined(
            bytes, at, new byte[] {(byte) random.nextInt(256)}, Math.min(bytes.length, at + 1));
    }
  }

  private static byte[] joined(byte[] bytes, int until, byte[] middle, int from) {
    byte[] result = new byte[until + middle.length + bytes.length - from];
    System.arraycopy(bytes, 0, result, 0, until);
    System.arraycopy(middle, 0, result, until, middle.length);
    System.arraycopy(bytes, from, result, until + middle.length, bytes.length - from);
    return result;
  }
}
