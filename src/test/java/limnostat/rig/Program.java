package limnostat.rig;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assertions.fail;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;

/** A process of the tests with the lines that it has written so far; killed when closed. */
public final class Program implements AutoCloseable {
  private static final int WAIT_S = 60;
  private static final List<String> SMALL =
      List.of("-Xmx64m", "-XX:+UseSerialGC", "-XX:TieredStopAtLevel=1");

  private final Process process;
  private final List<String> out = new CopyOnWriteArrayList<>();
  private final List<String> err = new CopyOnWriteArrayList<>();
  private final List<Thread> readers;

  private Program(Process process) {
    this.process = process;
    this.readers =
        List.of(reader(process.getInputStream(), out), reader(process.getErrorStream(), err));
  }

  /** The packaged program, as a person starts it. */
  public static Program limnostat(String... arguments) throws IOException {
    return start(limnostatCommand(arguments));
  }

  public static ProcessBuilder limnostatCommand(String... arguments) {
    List<String> command = new ArrayList<>(List.of(java()));
    command.addAll(SMALL);
    command.addAll(List.of("-jar", Path.of("target", "limnostat.jar").toString()));
    command.addAll(List.of(arguments));
    ProcessBuilder builder = new ProcessBuilder(command);
    builder.environment().keySet().removeAll(List.of("NOTIFY_SOCKET", "JOURNAL_STREAM"));
    return builder;
  }

  /** A main class of the tests in a process of its own. */
  public static Program ofTests(Class<?> main, String... arguments) throws IOException {
    List<String> command = new ArrayList<>(List.of(java()));
    command.addAll(SMALL);
    command.addAll(List.of("-cp", System.getProperty("java.class.path"), main.getName()));
    command.addAll(List.of(arguments));
    return start(new ProcessBuilder(command));
  }

  public static Program start(String... command) throws IOException {
    return start(new ProcessBuilder(command));
  }

  public static Program start(ProcessBuilder builder) throws IOException {
    return new Program(builder.start());
  }

  public static String java() {
    return Path.of(System.getProperty("java.home"), "bin", "java").toString();
  }

  /** Runs one to its end and returns what it wrote to standard output. */
  public static String output(String... command) throws IOException, InterruptedException {
    try (Program program = start(command)) {
      assertTrue(program.exit() == 0, List.of(command) + " failed: " + program.err());
      return String.join("\n", program.out());
    }
  }

  public static void await(String what, BooleanSupplier condition) throws InterruptedException {
    long endNs = System.nanoTime() + TimeUnit.SECONDS.toNanos(WAIT_S);
    while (!condition.getAsBoolean()) {
      if (System.nanoTime() > endNs) {
        fail("not within " + WAIT_S + " s: " + what);
      }
      Thread.sleep(10);
    }
  }

  public List<String> out() {
    return List.copyOf(out);
  }

  public List<String> err() {
    return List.copyOf(err);
  }

  public long pid() {
    return process.pid();
  }

  public boolean alive() {
    return process.isAlive();
  }

  /** Waits for a line of the log, which goes to standard error, that contains a text. */
  public void awaitLog(String text) throws InterruptedException {
    await(text + " in the log " + err, () -> err.stream().anyMatch(line -> line.contains(text)));
  }

  public void awaitOut(String text) throws InterruptedException {
    await(text + " in " + out, () -> out.stream().anyMatch(line -> line.contains(text)));
  }

  /**
   * @param name of the signal, without SIG
   */
  public void signal(String name) throws IOException, InterruptedException {
    output("kill", "-" + name, "" + pid());
  }

  /** SIGKILL; returns once the process is gone. */
  public void kill() throws InterruptedException {
    process.destroyForcibly().waitFor();
  }

  /** Waits for the end and for all of the output; the exit status. */
  public int exit() throws InterruptedException {
    await("end of process " + pid() + ", which wrote " + out + err, () -> !process.isAlive());
    for (Thread reader : readers) {
      reader.join();
    }
    return process.exitValue();
  }

  @Override
  public void close() {
    process.destroyForcibly();
  }

  private static Thread reader(InputStream from, List<String> to) {
    Thread thread =
        new Thread(
            () -> {
              try (BufferedReader lines = new BufferedReader(new InputStreamReader(from, UTF_8))) {
                lines.lines().forEach(to::add);
              } catch (IOException | java.io.UncheckedIOException e) {
                to.add("(no more output: " + e + ")");
              }
            },
            "reader");
    thread.setDaemon(true);
    thread.start();
    return thread;
  }
}
