package limnostat.daemon.service;

import java.time.Duration;
import org.tinylog.provider.ProviderRegistry;

/**
 * The end of the log. tinylog's own shutdown hook is off, as it loses what later hooks still log.
 */
public final class LogShutdown {
  private LogShutdown() {}

  /**
   * Writes what is queued and ends the log: the last step of every way out of the process, the
   * short commands included. Where nobody reads standard error the rest is given up.
   *
   * @param timeLimit longest wait
   * @return whether everything was written
   */
  public static boolean flush(Duration timeLimit) {
    Thread helper =
        new Thread(
            () -> {
              try {
                ProviderRegistry.getLoggingProvider().shutdown();
              } catch (InterruptedException e) {
                // Nobody interrupts this thread but a host that is ending it.
                Thread.currentThread().interrupt();
              }
            },
            "log-shutdown");
    // A daemon thread, since a stuck log must not keep the process alive.
    helper.setDaemon(true);
    helper.start();
    try {
      helper.join(Math.max(1, timeLimit.toMillis()));
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
    return !helper.isAlive();
  }
}
