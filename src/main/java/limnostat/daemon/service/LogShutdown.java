package limnostat.daemon.service;

import java.time.Duration;
import org.tinylog.provider.ProviderRegistry;

/** Ends the log. tinylog's own shutdown hook is off, because it loses what later hooks log. */
public final class LogShutdown {
  private LogShutdown() {}

  /**
   * Writes what is queued and ends the log. It is the last step of every exit from the process,
   * short commands included. If nobody reads standard error, the rest is dropped.
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
                // This thread is interrupted only by a host that is ending it.
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
