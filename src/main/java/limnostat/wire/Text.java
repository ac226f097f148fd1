package limnostat.wire;

/** Makes texts from other programs safe to repeat in an answer. */
final class Text {
  /** Maximum number of characters of a text that are repeated. */
  static final int SHOWN_MAX = 40;

  private Text() {}

  /**
   * The text cut to that many characters, with an ellipsis if there were more. It never cuts a
   * character in half.
   */
  static String shortened(String text) {
    return text.codePointCount(0, text.length()) <= SHOWN_MAX
        ? text
        : text.substring(0, text.offsetByCodePoints(0, SHOWN_MAX)) + "…";
  }

  /** Whether the text has no unpaired surrogate, which UTF-8 cannot encode (RFC 3629). */
  static boolean whole(String text) {
    return text.codePoints().allMatch(Text::whole);
  }

  /** The same text, with a replacement character in place of each unpaired surrogate. */
  static String mended(String text) {
    return text.codePoints()
        .map(c -> whole(c) ? c : 0xFFFD)
        .collect(StringBuilder::new, StringBuilder::appendCodePoint, StringBuilder::append)
        .toString();
  }

  private static boolean whole(int codePoint) {
    return Character.getType(codePoint) != Character.SURROGATE;
  }
}
