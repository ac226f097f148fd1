package limnostat;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/** The libraries as the build resolves them, against what is known of their versions. */
class LibrariesTest {
  private static final Pattern JAR = Pattern.compile("(.+?)-(\\d[^/]*)\\.jar");

  private static List<String> lines(String name) throws IOException {
    try (InputStream in =
        Objects.requireNonNull(LibrariesTest.class.getResourceAsStream("libraries/" + name))) {
      return new String(in.readAllBytes(), UTF_8)
          .lines()
          .filter(line -> !line.isBlank() && !line.startsWith("#"))
          .toList();
    }
  }

  private static List<Advisory> advisories() throws IOException {
    return lines("advisories.txt").stream().map(Advisory::of).toList();
  }

  /** Version by artifact, of all that the tests run with, the shipped ones among them. */
  private static Map<String, Advisory.Version> resolved() {
    Map<String, Advisory.Version> resolved = new TreeMap<>();
    Arrays.stream(System.getProperty("java.class.path").split(":", -1))
        .map(entry -> Path.of(entry).getFileName())
        .filter(Objects::nonNull)
        .map(name -> JAR.matcher(name.toString()))
        .filter(Matcher::matches)
        .forEach(jar -> resolved.put(jar.group(1), Advisory.Version.of(jar.group(2))));
    return resolved;
  }

  @Test
  void noVersionThatIsUsedHasAKnownAdvisory() throws IOException {
    List<String> faults = new ArrayList<>();
    Map<String, Advisory.Version> resolved = resolved();
    for (Advisory advisory : advisories()) {
      Advisory.Version version = resolved.get(advisory.artifact());
      if (version != null && advisory.affects(advisory.artifact(), version)) {
        faults.add(advisory.artifact() + " " + version.numbers() + ": " + advisory.name());
      }
    }
    assertEquals(List.of(), faults);
  }

  /** Whoever adds one looks for advisories, and says where. */
  @Test
  void eachShippedLibraryWasLookedFor() throws IOException {
    TreeSet<String> looked = new TreeSet<>();
    advisories().forEach(advisory -> looked.add(advisory.artifact()));
    for (String shipped : lines("shipped.txt")) {
      assertTrue(looked.contains(shipped), shipped + " is not in advisories.txt");
      assertTrue(resolved().containsKey(shipped), shipped + " is not used any more");
    }
  }

  @Test
  void whatIsShippedForNothingIsGone() {
    for (String gone : List.of("jsch", "checker-qual")) {
      assertFalse(resolved().containsKey(gone), gone);
    }
  }

  /** Or the comparison might pass everything. */
  @Test
  void affectedVersionsAreFound() throws IOException {
    for (String affected :
        List.of(
            "jackson-databind 2.19.0",
            "jackson-databind 2.21.4",
            "jackson-core 2.14.9",
            "jackson-core 2.19.0",
            "jackson-core 2.22.0",
            "sqlite-jdbc 3.41.2.1",
            "sqlite-jdbc 3.53.2.0",
            "org.eclipse.paho.client.mqttv3 1.2.0")) {
      String[] library = affected.split(" ", 2);
      assertTrue(known(library[0], library[1]), affected);
    }
    assertFalse(known("jackson-core", "2.22.3"));
    assertFalse(known("jackson-core", "2.18.8"));
    assertFalse(known("sqlite-jdbc", "3.53.3.0"));
  }

  private static boolean known(String artifact, String version) throws IOException {
    Advisory.Version parsed = Advisory.Version.of(version);
    return advisories().stream().anyMatch(advisory -> advisory.affects(artifact, parsed));
  }

  @Test
  void aLineThatSaysNothingIsAnError() {
    for (String line : List.of("x | 1 - 2 | y", "x | 2 - 1 | y | z", "x | 1 | y | z", "|||")) {
      assertThrows(IllegalArgumentException.class, () -> Advisory.of(line), line);
    }
  }
}
