package limnostat.rig;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.jar.JarOutputStream;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;

/**
 * Starts a main class of the tests in a third of the usual time: its classes are read once, into an
 * archive that all the processes share. Only jars can be archived, so the folders of the class path
 * become one.
 */
public final class FastJvm {
  private static final List<String> FAST =
      List.of(
          "-Xmx64m",
          "-XX:+UseSerialGC",
          "-XX:TieredStopAtLevel=1",
          "-XX:-UsePerfData",
          "-Xshare:auto",
          "-Xlog:cds=off",
          "-Xlog:cds+dynamic=off");

  private final Path archive;
  private final String classPath;

  private FastJvm(Path archive, String classPath) {
    this.archive = archive;
    this.classPath = classPath;
  }

  /**
   * @param folder for jar and archive
   * @param warmUp ends by itself, having loaded what is worth archiving
   */
  public static FastJvm make(Path folder, Class<?> warmUp, String... arguments)
      throws IOException, InterruptedException {
    List<String> entries = new ArrayList<>();
    Path jar = folder.resolve("tests.jar");
    try (JarOutputStream out = new JarOutputStream(Files.newOutputStream(jar))) {
      for (String entry : System.getProperty("java.class.path").split(":", -1)) {
        if (Files.isDirectory(Path.of(entry))) {
          add(Path.of(entry), out);
        } else {
          entries.add(entry);
        }
      }
    }
    String classPath = jar + ":" + String.join(":", entries);
    FastJvm jvm = new FastJvm(folder.resolve("classes.jsa"), classPath);
    try (Program program =
        Program.start(jvm.with("-XX:ArchiveClassesAtExit=" + jvm.archive, warmUp, arguments))) {
      if (program.exit() != 0) {
        throw new IOException("the warm-up failed: " + program.err());
      }
    }
    return jvm;
  }

  private static void add(Path root, JarOutputStream out) throws IOException {
    try (Stream<Path> files = Files.walk(root)) {
      for (Path file : files.filter(Files::isRegularFile).collect(Collectors.toList())) {
        String name = root.relativize(file).toString();
        try {
          out.putNextEntry(new ZipEntry(name));
        } catch (java.util.zip.ZipException e) {
          continue; // in two folders: the first counts, as on a class path
        }
        Files.copy(file, (OutputStream) out);
        out.closeEntry();
      }
    }
  }

  public Program start(Class<?> main, String... arguments) throws IOException {
    return Program.start(builder(List.of(), main, arguments));
  }

  /** To be started otherwise, with words before the command. */
  public ProcessBuilder builder(List<String> prefix, Class<?> main, String... arguments) {
    ProcessBuilder builder = builder("-XX:SharedArchiveFile=" + archive, main, arguments);
    builder.command().addAll(0, prefix);
    return builder;
  }

  /** With an option of the JVM's. */
  public ProcessBuilder with(String option, Class<?> main, String... arguments) {
    return builder(option, main, arguments);
  }

  private ProcessBuilder builder(String option, Class<?> main, String... arguments) {
    List<String> command = new ArrayList<>(List.of(Program.java(), option));
    command.addAll(FAST);
    command.addAll(List.of("-cp", classPath, main.getName()));
    command.addAll(List.of(arguments));
    ProcessBuilder builder = new ProcessBuilder(command);
    builder.environment().keySet().removeAll(List.of("NOTIFY_SOCKET", "JOURNAL_STREAM"));
    return builder;
  }
}
