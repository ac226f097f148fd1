package limnostat.daemon.service;

/**
 * Makes text from outside (topics, payloads, device names) harmless in a log line or a
 * notification. A line feed would forge a second entry. An escape sequence or a change of writing
 * direction would mislead the person at the terminal.
 */
final class SingleLine {
  private SingleLine() {}

  /**
   * The text with every control, format and separator character and every unpaired surrogate
   * escaped.
   */
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
