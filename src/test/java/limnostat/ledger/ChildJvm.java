package limnostat.ledger;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** Starts a main class of the tests in a JVM of its own. */
final class ChildJvm {
  private ChildJvm() {}

  /**
   * @param arguments JVM options, the class, its arguments
   */
  static Process start(String... arguments) throws IOException {
    return start(List.of(), arguments);
  }

  /** As {@link #start}, with words before the command. */
  static Process start(List<String> prefix, String... arguments) throws IOException {
    List<String> command = new ArrayList<>(prefix);
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    command.addAll(
        List.of("-XX:+UseSerialGC", "-XX:TieredStopAtLevel=1", "-Xmx64m", "-Dtinylog.level=off"));
    command.addAll(List.of("-cp", System.getProperty("java.class.path")));
    command.addAll(List.of(arguments));
    return new ProcessBuilder(command).redirectErrorStream(true).start();
  }

  /**
   * Starts it with a file system of its own, in memory, at a folder; it goes with the process.
   * Needs root, or user name spaces.
   */
  static Process startWithMount(Path folder, String mountOptions, String... arguments)
      throws IOException {
    return start(
        List.of(
            "unshare",
            "--map-root-user",
            "--mount",
            "sh",
            "-c",
            "mount -t tmpfs -o " + mountOptions + " tmpfs '" + folder + "' && exec \"$@\"",
            "sh"),
        arguments);
  }
}
