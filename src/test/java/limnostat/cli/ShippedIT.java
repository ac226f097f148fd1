package limnostat.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.jar.JarFile;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** What the build puts beside the program is what is meant to be shipped, and no more. */
class ShippedIT {
  private static final Path TARGET = Path.of("target");

  private static List<String> meant() throws Exception {
    return Files.readAllLines(Path.of("src/test/resources/limnostat/libraries/shipped.txt"))
        .stream()
        .filter(line -> !line.startsWith("#"))
        .sorted()
        .toList();
  }

  private static String artifact(String jar) {
    return jar.replaceFirst("-\\d[^/]*\\.jar$", "");
  }

  @Test
  void theFolderHoldsWhatIsMeantToBeShipped() throws Exception {
    try (Stream<Path> files = Files.list(TARGET.resolve("lib"))) {
      assertEquals(meant(), files.map(f -> artifact(f.getFileName().toString())).sorted().toList());
    }
  }

  @Test
  void theJarNamesTheSame() throws Exception {
    try (JarFile jar = new JarFile(TARGET.resolve("limnostat.jar").toFile())) {
      String classPath = jar.getManifest().getMainAttributes().getValue("Class-Path");
      assertEquals(
          meant(),
          Stream.of(classPath.split(" "))
              .map(e -> artifact(e.replaceFirst("^lib/", "")))
              .sorted()
              .toList());
    }
  }
}
