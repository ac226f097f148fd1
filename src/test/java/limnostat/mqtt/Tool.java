package limnostat.mqtt;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.TimeUnit;

/** Programs that the tests use beside the broker. */
final class Tool {
  private Tool() {}

  /** Runs one to its end and fails on any exit status but 0. */
  static void run(String... command) throws IOException, InterruptedException {
    feed("", command);
  }

  /** The same with something to read. */
  static void feed(String input, String... command) throws IOException, InterruptedException {
    File out = File.createTempFile("limnostat-tool", ".log");
    try {
      Process process =
          new ProcessBuilder(command).redirectErrorStream(true).redirectOutput(out).start();
      try (var stdin = process.getOutputStream()) {
        stdin.write(input.getBytes(UTF_8));
      }
      if (!process.waitFor(30, TimeUnit.SECONDS) || process.exitValue() != 0) {
        process.destroyForcibly();
        throw new IOException(List.of(command) + " failed: " + Files.readString(out.toPath()));
      }
    } finally {
      out.delete();
    }
  }

  /** Publishes to the command topic of the test site. */
  static void command(LocalBroker broker, String text, String... options)
      throws IOException, InterruptedException {
    String[] base = {
      "mosquitto_pub",
      "-h",
      "127.0.0.1",
      "-p",
      "" + broker.port(),
      "-q",
      "1",
      "-t",
      Links.TOPIC + "command",
      "-s"
    };
    String[] all = Arrays.copyOf(base, base.length + options.length);
    System.arraycopy(options, 0, all, base.length, options.length);
    feed(text, all);
  }

  static void freeze(LocalBroker broker) throws IOException, InterruptedException {
    run("kill", "-STOP", "" + broker.pid());
  }

  static void thaw(LocalBroker broker) throws IOException, InterruptedException {
    run("kill", "-CONT", "" + broker.pid());
  }
}
