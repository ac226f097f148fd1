package limnostat.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import picocli.CommandLine.ParameterException;

/** README, DEVELOPERS.md and the pages hang together and show what the program takes. */
class PagesTest {
  private static final Path README = Path.of("README.md");
  private static final Path PAGES = Path.of("src", "site", "markdown");
  private static final Pattern LINK = Pattern.compile("]\\(([^)\\s]+)\\)");
  private static final Pattern FENCED = Pattern.compile("(?ms)^ *```(\\w*)\\n(.*?)^ *```$");

  private static List<Path> pages() throws IOException {
    try (Stream<Path> files = Files.list(PAGES)) {
      return files.filter(file -> file.toString().endsWith(".md")).sorted().toList();
    }
  }

  private static List<Path> all() throws IOException {
    List<Path> all = new ArrayList<>(List.of(README, Path.of("DEVELOPERS.md")));
    all.addAll(pages());
    return all;
  }

  private static String prose(Path file) {
    try {
      return FENCED.matcher(Files.readString(file)).replaceAll("");
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static List<String> links(Path file) {
    return LINK.matcher(prose(file))
        .results()
        .map((MatchResult m) -> m.group(1))
        .filter(link -> !link.matches("[a-z]+:.*"))
        .toList();
  }

  /** Of each heading what a link to it is called: small letters, hyphens for blanks, no points. */
  private static Set<String> anchors(Path file) {
    return prose(file)
        .lines()
        .filter(line -> line.matches("#+ .*"))
        .map(line -> line.replaceFirst("#+ ", "").toLowerCase(Locale.ROOT))
        .map(heading -> heading.replaceAll("[^\\p{L}\\p{N} _-]", "").replace(' ', '-'))
        .collect(Collectors.toSet());
  }

  @Test
  void everyRelativeLinkLeadsSomewhere() throws IOException {
    List<String> dead = new ArrayList<>();
    int links = 0;
    for (Path file : all()) {
      for (String link : links(file)) {
        links++;
        int hash = link.indexOf('#');
        String path = hash < 0 ? link : link.substring(0, hash);
        Path target = path.isEmpty() ? file : file.resolveSibling(path).normalize();
        if (!Files.isRegularFile(target)
            || (hash >= 0 && !anchors(target).contains(link.substring(hash + 1)))) {
          dead.add(file + ": " + link);
        }
      }
    }
    assertEquals(List.of(), dead);
    assertTrue(links > 20, "links found: " + links);
  }

  /** The index names every page, and the README the index. */
  @Test
  void noPageIsOrphaned() throws IOException {
    assertTrue(links(README).contains("src/site/markdown/index.md"), "index in the README");
    Set<String> named = new TreeSet<>(links(PAGES.resolve("index.md")));
    List<String> orphans =
        pages().stream()
            .map(page -> page.getFileName().toString())
            .filter(page -> !page.equals("index.md") && !named.contains(page))
            .toList();
    assertEquals(List.of(), orphans, "pages that index.md does not name");
  }

  @Test
  void theReadmeIsReadInEightMinutes() throws IOException {
    int words = Files.readString(README).strip().split("\\s+").length;
    assertTrue(words <= 2500, words + " words");
  }

  @Test
  void theReadmeNamesEveryCommand() throws IOException {
    Set<String> rows =
        Files.readAllLines(README).stream()
            .dropWhile(line -> !line.startsWith("| command | what it does |"))
            .skip(2)
            .takeWhile(line -> line.startsWith("|"))
            .map(line -> line.replaceFirst("^\\| `(\\S+?)[ `].*", "$1"))
            .collect(Collectors.toCollection(TreeSet::new));
    assertEquals(new TreeSet<>(Limnostat.commandLine().getSubcommands().keySet()), rows);
  }

  /** Each command line of this program that a page shows has options that there are. */
  @Test
  void everyCommandLineShownIsTaken() throws IOException {
    List<String> refused = new ArrayList<>();
    int shown = 0;
    for (Path file : all()) {
      for (String line : commandLines(file)) {
        shown++;
        try {
          Limnostat.commandLine().parseArgs(words(line));
        } catch (ParameterException e) {
          refused.add(file + ": " + line + ": " + e.getMessage());
        }
      }
    }
    assertEquals(List.of(), refused);
    assertTrue(shown >= 6, "command lines found: " + shown);
  }

  /** What stands after the program's name in blocks of shell; {@code --config FILE} as it is. */
  private static List<String> commandLines(Path file) throws IOException {
    return FENCED
        .matcher(Files.readString(file))
        .results()
        .filter(m -> m.group(1).equals("sh"))
        .map((MatchResult m) -> m.group(2).replaceAll("\\\\\\n\\s*", ""))
        .flatMap(String::lines)
        .filter(line -> !line.contains(" -- java")) // a script that adds the rest
        .flatMap(
            line ->
                Pattern.compile("(?:^ *limnostat|limnostat\\.jar) +([a-z].*)")
                    .matcher(line)
                    .results()
                    .map((MatchResult m) -> m.group(1)))
        .toList();
  }

  /** As a shell splits it, as far as the pages need it: blanks, and double quotes about words. */
  private static String[] words(String line) {
    return Pattern.compile("\"([^\"]*)\"|(\\S+)")
        .matcher(line)
        .results()
        .map((MatchResult m) -> m.group(1) != null ? m.group(1) : m.group(2))
        .toArray(String[]::new);
  }
}
