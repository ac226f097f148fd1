package limnostat.mqtt;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.fail;

import java.time.Duration;
import java.util.Optional;
import java.util.function.BooleanSupplier;
import limnostat.config.MqttSettings;

/** Links to a broker on this machine, impatient ones, and how to wait for them. */
final class Links {
  static final String SITE = "site";
  static final String TOPIC = "base/" + SITE + "/";

  /** As shipped, but no test waits a minute. */
  static final LinkTimes IMPATIENT =
      new LinkTimes(
          Duration.ofSeconds(2),
          Duration.ofSeconds(20),
          Duration.ofSeconds(60),
          Duration.ofMillis(200),
          Duration.ofMillis(800),
          Duration.ofMinutes(5),
          Duration.ofSeconds(2));

  private Links() {}

  static MqttSettings plain(int port) {
    return new MqttSettings(
        true,
        "127.0.0.1",
        port,
        false,
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        "base");
  }

  static Link started(int port) {
    return started(plain(port), Optional.empty(), IMPATIENT);
  }

  static Link started(MqttSettings settings, Optional<char[]> password, LinkTimes times) {
    Link link = new Link(settings, SITE, Password.fixed(password), Keeper.NONE, times);
    link.start();
    return link;
  }

  static Link connected(int port) throws InterruptedException {
    Link link = started(port);
    await("connected", () -> link.health().connected());
    return link;
  }

  static void await(String what, BooleanSupplier condition) throws InterruptedException {
    long deadlineNanos = System.nanoTime() + Duration.ofSeconds(15).toNanos();
    while (!condition.getAsBoolean()) {
      if (System.nanoTime() > deadlineNanos) {
        fail("not within 15 s: " + what);
      }
      Thread.sleep(10);
    }
  }

  static byte[] bytes(String text) {
    return text.getBytes(UTF_8);
  }
}
