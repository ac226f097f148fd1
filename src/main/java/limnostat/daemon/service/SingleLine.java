package limnostat.daemon.service;

/**
 * Text from outside (topics, payloads, device names) made harmless for a line of a log or of a
 * notification: a line feed in it would forge a second entry, an escape sequence or a change of
 * writing direction would lie to the person at the terminal.
 */
final class SingleLine {
  private SingleLine() {}

  /** The text with every control, format, separator and half surrogate written as an escape. */
  static String of(String text) {
    if (text.codePoints().allMatch(SingleLine::harmless)) {
      return text;
    }
    StringBuilder line = new StringBuilder(text.length() + 16);
    text.codePoints()
        .forEach(
            c -> {
              switch (c) {
                case '\n' -> line.append("\\n");
                case '\r' -> line.append("\\r");
                case '\t' -> line.append("\\t");
                default -> {
                  if (harmless(c)) {
                    line.appendCodePoint(c);
                  } else {
                    line.append(String.format("\\u%04x", c));
                  }
                }
              }
            });
    return line.toString();
  }

  private static boolean harmless(int codePoint) {
    return switch (Character.getType(codePoint)) {
      case Character.CONTROL,
          Character.FORMAT,
          Character.LINE_SEPARATOR,
          Character.PARAGRAPH_SEPARATOR,
          Character.SURROGATE ->
          false;
      default -> true;
    };
  }
}
