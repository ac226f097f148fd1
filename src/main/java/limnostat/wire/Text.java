package limnostat.wire;

/** Texts of others, made fit to be repeated in an answer. */
final class Text {
  /** Characters of a text that are repeated. */
  static final int SHOWN_MAX = 40;

  private Text() {}

  /** At most so many characters, with a sign where there were more; never half of one. */
  static String shortened(String text) {
    return text.codePointCount(0, text.length()) <= SHOWN_MAX
        ? text
        : text.substring(0, text.offsetByCodePoints(0, SHOWN_MAX)) + "…";
  }

  /** Whether no surrogate is without its other half, which UTF-8 cannot say (RFC 3629). */
  static boolean whole(String text) {
    return text.codePoints().allMatch(Text::whole);
  }

  /** The same text, with a sign in place of each half. */
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
