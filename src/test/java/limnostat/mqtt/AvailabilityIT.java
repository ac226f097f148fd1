package limnostat.mqtt;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

@Timeout(60)
class AvailabilityIT {
  @Test
  void onlineWhileConnectedAndOfflineAfterAnOrderlyStopWithTheLastWordsFirst() throws Exception {
    try (LocalBroker broker = LocalBroker.start();
        Observer observer = new Observer(broker)) {
      try (Link link = Links.connected(broker.port())) {
        observer.await("availability 0 online");
        link.event("result", Links.bytes("last"));
      }
      observer.await("availability 0 offline");
      assertEquals(
          List.of("availability 0 online", "result 0 last", "availability 0 offline"),
          observer.seen());
      try (Observer late = new Observer(broker)) {
        late.await("availability 1 offline");
      }
    }
  }

  @Test
  void theBrokerSaysOfflineWhenTheProcessIsKilled() throws Exception {
    try (LocalBroker broker = LocalBroker.start();
        Observer observer = new Observer(broker)) {
      Process process =
          new ProcessBuilder(
                  Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                  "-cp",
                  System.getProperty("java.class.path"),
                  LinkProcess.class.getName(),
                  "" + broker.port())
              .inheritIO()
              .start();
      try {
        observer.await("availability 0 online");
      } finally {
        process.destroyForcibly();
      }
      observer.await("availability 0 offline");
      try (Observer late = new Observer(broker)) {
        late.await("availability 1 offline");
      }
    }
  }

  @Test
  void onlineAgainAfterACutLine() throws Exception {
    try (LocalBroker broker = LocalBroker.start();
        Observer observer = new Observer(broker);
        Gate gate = new Gate(broker.port());
        Link link = Links.connected(gate.port())) {
      observer.await("availability 0 online");
      gate.cut();
      observer.await("availability 0 offline");
      gate.mend();
      Links.await("connected", () -> link.health().connected());
      Links.await(
          "online after offline", () -> observer.seen().lastIndexOf("availability 0 online") == 2);
    }
  }
}
