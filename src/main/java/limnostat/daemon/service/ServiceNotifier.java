package limnostat.daemon.service;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import org.tinylog.Logger;

/**
 * Tells systemd the daemon's condition, by the protocol of sd_notify(3). Without {@code
 * NOTIFY_SOCKET} every call does nothing. No call waits, and none throws. The first failure is
 * logged; later ones are not, since they would come with every scan.
 *
 * <p>Only the scan thread calls {@link #watchdog}, after a complete scan: a timer would vouch for a
 * dead scan. The other calls may come from any thread.
 */
public final class ServiceNotifier {
  /**
   * systemd drops a message above PIPE_BUF, 4096 bytes; a UTF-16 unit takes three bytes at most.
   */
  private static final int STATUS_CHARS_MAX = 1000;

  private final String address;
  private final long watchdogUsec;
  private final long watchdogPauseNs;
  private boolean readyOwed;
  private boolean watchdogSent;
  private long watchdogSentNs;
  private String statusSent = "";
  private boolean failureLogged;

  /**
   * @param address value of {@code NOTIFY_SOCKET}: a path, {@code @name}, or empty for none
   * @param watchdogUsec time without a watchdog message after which systemd kills the process, µs;
   *     0 for no watchdog
   */
  ServiceNotifier(String address, long watchdogUsec) {
    this.address = address;
    this.watchdogUsec = watchdogUsec;
    // systemd asks for one within every half; a quarter leaves room for a late scan.
    this.watchdogPauseNs = watchdogUsec / 4 * 1000;
  }

  /** The notifier for this process's environment. */
  public static ServiceNotifier fromEnvironment() {
    return from(System.getenv(), ProcessHandle.current().pid());
  }

  static ServiceNotifier from(Map<String, String> environment, long pid) {
    return new ServiceNotifier(
        environment.getOrDefault("NOTIFY_SOCKET", ""), watchdogUsec(environment, pid));
  }

  /**
   * Startup continues, however long it has taken so far.
   *
   * @param withinS the next message comes within this time, s
   */
  public synchronized void starting(long withinS) {
    send("EXTEND_TIMEOUT_USEC=" + TimeUnit.SECONDS.toMicros(withinS));
  }

  /** The outputs were off and one scan is complete: the service counts as started. */
  public synchronized void ready() {
    readyOwed = !send("READY=1");
  }

  /**
   * One line for people, shown by {@code systemctl status}; sent only when it changes.
   *
   * @param oneLine text; control characters are escaped, since a line feed would start another
   *     field of the protocol, and anything beyond 1000 characters is cut
   */
  public synchronized void status(String oneLine) {
    String line = SingleLine.of(oneLine);
    line = line.length() <= STATUS_CHARS_MAX ? line : line.substring(0, STATUS_CHARS_MAX);
    if (!line.equals(statusSent) && send("STATUS=" + line)) {
      statusSent = line;
    }
  }

  /**
   * A scan is complete. Call after every scan. A message goes out once per quarter of the
   * watchdog's time; if one fails, the next scan tries again.
   *
   * @param monotonicNs end of the scan by {@link System#nanoTime}, ns
   */
  public synchronized void watchdog(long monotonicNs) {
    if (readyOwed) {
      ready();
    }
    boolean due = !watchdogSent || monotonicNs - watchdogSentNs >= watchdogPauseNs;
    if (watchdogUsec > 0 && due && send("WATCHDOG=1")) {
      watchdogSent = true;
      watchdogSentNs = monotonicNs;
    }
  }

  /** An orderly stop has begun. */
  public synchronized void stopping() {
    send("STOPPING=1");
  }

  /** Returns whether this message needs nothing more. */
  private boolean send(String message) {
    if (address.isEmpty()) {
      return true;
    }
    try {
      NotifySocket.send(address, message.getBytes(StandardCharsets.UTF_8));
      return true;
    } catch (IOException | LinkageError e) {
      if (!failureLogged) {
        failureLogged = true;
        Logger.warn(
            e,
            "Cannot tell systemd {} at NOTIFY_SOCKET {}; without READY=1 and WATCHDOG=1 it restarts"
                + " the service{}",
            message,
            address,
            e instanceof LinkageError
                ? ". JNA did not load: jna.tmpdir has to be writable and not mounted noexec"
                : "");
      }
      return false;
    }
  }

  private static long watchdogUsec(Map<String, String> environment, long pid) {
    String usec = environment.getOrDefault("WATCHDOG_USEC", "0");
    // Set for another process and inherited by this one, see sd_watchdog_enabled(3).
    if (!environment.getOrDefault("WATCHDOG_PID", Long.toString(pid)).equals(Long.toString(pid))) {
      return 0;
    }
    try {
      return Math.max(0, Long.parseLong(usec));
    } catch (NumberFormatException e) {
      Logger.warn("WATCHDOG_USEC is '{}', not a count of µs: no watchdog messages", usec);
      return 0;
    }
  }
}
