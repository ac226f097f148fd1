package limnostat;

import java.util.Arrays;
import java.util.List;

/**
 * What is known to be wrong with some versions of a library.
 *
 * @param ranges of affected versions; none: it was looked for and nothing was found
 */
record Advisory(String artifact, List<Range> ranges, String name, String source) {
  private static final String NONE = "none known";

  /** Versions from one on, before another. */
  record Range(Version from, Version before) {
    boolean has(Version version) {
      return version.compareTo(from) >= 0 && version.compareTo(before) < 0;
    }
  }

  /** Numbers between dots; what follows the last number is not looked at. */
  record Version(List<Integer> numbers) implements Comparable<Version> {
    static Version of(String text) {
      return new Version(
          Arrays.stream(text.strip().split("[.]"))
              .takeWhile(part -> part.matches("\\d+"))
              .map(Integer::valueOf)
              .toList());
    }

    @Override
    public int compareTo(Version other) {
      for (int i = 0; i < Math.max(numbers.size(), other.numbers.size()); i++) {
        int difference = Integer.compare(at(i), other.at(i));
        if (difference != 0) {
          return difference;
        }
      }
      return 0;
    }

    private int at(int i) {
      return i < numbers.size() ? numbers.get(i) : 0;
    }
  }

  /**
   * @throws IllegalArgumentException it is not as the head of the file says
   */
  static Advisory of(String line) {
    List<String> fields = Arrays.stream(line.split("[|]")).map(String::strip).toList();
    if (fields.size() != 4 || fields.stream().anyMatch(String::isEmpty)) {
      throw new IllegalArgumentException("not four fields: " + line);
    }
    List<Range> ranges =
        fields.get(1).equals(NONE)
            ? List.of()
            : Arrays.stream(fields.get(1).split(",")).map(Advisory::range).toList();
    return new Advisory(fields.get(0), ranges, fields.get(2), fields.get(3));
  }

  private static Range range(String text) {
    String[] ends = text.split(" - ", -1);
    if (ends.length != 2) {
      throw new IllegalArgumentException("no range: " + text);
    }
    Range range = new Range(Version.of(ends[0]), Version.of(ends[1]));
    if (range.from().compareTo(range.before()) >= 0) {
      throw new IllegalArgumentException("an empty range: " + text);
    }
    return range;
  }

  boolean affects(String library, Version version) {
    return artifact.equals(library) && ranges.stream().anyMatch(range -> range.has(version));
  }
}
