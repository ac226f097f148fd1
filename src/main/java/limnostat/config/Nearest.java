package limnostat.config;

import java.util.Collection;
import java.util.Comparator;
import java.util.Optional;

/** Finds the word that a person probably meant. */
final class Nearest {
  private Nearest() {}

  /** The known word with the smallest edit distance, if it is close enough to be a typing error. */
  static Optional<String> to(String word, Collection<String> known) {
    return known.stream()
        .min(Comparator.comparingInt((String k) -> distance(word, k)).thenComparing(k -> k))
        .filter(k -> distance(word, k) <= Math.max(1, Math.min(word.length(), k.length()) / 3));
  }

  /**
   * Number of insertions, deletions and replacements that turn one word into the other, ignoring
   * case.
   */
  static int distance(String from, String to) {
    int[] row = new int[to.length() + 1];
    for (int j = 0; j <= to.length(); j++) {
      row[j] = j;
    }
    for (int i = 1; i <= from.length(); i++) {
      int diagonal = row[0];
      row[0] = i;
      for (int j = 1; j <= to.length(); j++) {
        boolean same =
            Character.toLowerCase(from.charAt(i - 1)) == Character.toLowerCase(to.charAt(j - 1));
        int replaced = diagonal + (same ? 0 : 1);
        diagonal = row[j];
        row[j] = Math.min(replaced, 1 + Math.min(row[j], row[j - 1]));
      }
    }
    return row[to.length()];
  }
}
