package limnostat.daemon.service;

import com.pi4j.Pi4J;
import java.time.Duration;
import org.slf4j.LoggerFactory;
import org.tinylog.Logger;

/** What the tests of whole processes run. */
final class LogProcess {
  private LogProcess() {}

  public static void main(String[] arguments) {
    switch (arguments[0]) {
      case "notify" -> notifySystemd();
      case "notify-without-jna" -> {
        // As on a noexec mount: the native part cannot be had.
        System.setProperty("jna.nounpack", "true");
        System.setProperty("jna.nosys", "true");
        notifySystemd();
      }
      case "levels" -> {
        Logger.debug("hidden");
        Logger.info("shown");
        Logger.warn("two\nlines");
        LogShutdown.flush(Duration.ofSeconds(10));
      }
      case "pi4j" -> {
        Pi4J.newContext().shutdown();
        LoggerFactory.getLogger("any").info("from {}", "SLF4J");
        LogShutdown.flush(Duration.ofSeconds(10));
      }
      case "late" ->
          Runtime.getRuntime()
              .addShutdownHook(
                  new Thread(
                      () -> {
                        for (int i = 0; i < 200; i++) {
                          Logger.info("entry {}", i);
                        }
                        System.out.println(LogShutdown.flush(Duration.ofSeconds(10)));
                      }));
      case "stuck" -> {
        for (int i = 0; i < 5000; i++) {
          Logger.info("entry {} of more than a pipe takes", i);
        }
        System.out.println(LogShutdown.flush(Duration.ofMillis(300)));
        System.exit(7);
      }
      default -> throw new IllegalArgumentException(arguments[0]);
    }
  }

  private static void notifySystemd() {
    ServiceNotifier notifier = ServiceNotifier.fromEnvironment();
    notifier.ready();
    notifier.watchdog(System.nanoTime());
    notifier.status("running");
    notifier.stopping();
    LogShutdown.flush(Duration.ofSeconds(10));
  }
}
