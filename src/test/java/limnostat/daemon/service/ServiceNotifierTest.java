package limnostat.daemon.service;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class ServiceNotifierTest {
  private static final long SECOND_NS = 1_000_000_000L;
  private static final long WATCHDOG_20_S_USEC = 20_000_000;

  @TempDir private Path folder;

  private String path() {
    return folder.resolve("notify").toString();
  }

  private static String abstractName() {
    return "@limnostat-test-" + ProcessHandle.current().pid() + "-" + System.nanoTime();
  }

  @Test
  void messagesArriveAtAPathAndInTheAbstractNamespace() throws IOException {
    for (String address : List.of(path(), abstractName())) {
      try (ReceivingSocket manager = new ReceivingSocket(address)) {
        ServiceNotifier notifier = new ServiceNotifier(address, WATCHDOG_20_S_USEC);
        notifier.starting(90);
        notifier.ready();
        notifier.status("feeding, 24.5 °C");
        notifier.watchdog(0);
        notifier.stopping();
        assertEquals(
            List.of(
                "EXTEND_TIMEOUT_USEC=90000000",
                "READY=1",
                "STATUS=feeding, 24.5 °C",
                "WATCHDOG=1",
                "STOPPING=1"),
            manager.messages());
      }
    }
  }

  @Test
  void statusIsOneFieldSentOnChangeAndFitsTheManagersBuffer() throws IOException {
    try (ReceivingSocket manager = new ReceivingSocket(path())) {
      ServiceNotifier notifier = new ServiceNotifier(path(), 0);
      notifier.status("a\nMAINPID=1");
      notifier.status("a\nMAINPID=1");
      notifier.status("€".repeat(5000));
      List<String> messages = manager.messages();
      assertEquals(2, messages.size());
      assertEquals("STATUS=a\\nMAINPID=1", messages.get(0));
      // NOTIFY_BUFFER_MAX of systemd is PIPE_BUF, 4096
      assertTrue(messages.get(1).getBytes(StandardCharsets.UTF_8).length <= 4096);
      assertTrue(messages.get(1).startsWith("STATUS=€€"));
    }
  }

  @ParameterizedTest
  @ValueSource(longs = {0, Long.MAX_VALUE - 7 * SECOND_NS, -30 * SECOND_NS})
  void watchdogIsFedFromScansBetweenAQuarterAndHalfOfItsTime(long startNs) throws IOException {
    try (ReceivingSocket manager = new ReceivingSocket(path())) {
      ServiceNotifier notifier = new ServiceNotifier(path(), WATCHDOG_20_S_USEC);
      List<Integer> sentS = new ArrayList<>();
      for (int s = 0; s <= 60; s++) {
        // nanoTime may be negative and may overflow
        notifier.watchdog(startNs + s * SECOND_NS);
        if (!manager.messages().isEmpty()) {
          sentS.add(s);
        }
      }
      assertEquals(List.of(0, 5, 10, 15, 20, 25, 30, 35, 40, 45, 50, 55, 60), sentS);
    }
  }

  @Test
  void noWatchdogMessageWithoutAWatchdog() throws IOException {
    try (ReceivingSocket manager = new ReceivingSocket(path())) {
      new ServiceNotifier(path(), 0).watchdog(0);
      assertEquals(List.of(), manager.messages());
    }
  }

  @Test
  void whatFailedIsSentWithTheNextScan() throws IOException {
    ServiceNotifier notifier = new ServiceNotifier(path(), WATCHDOG_20_S_USEC);
    notifier.ready();
    notifier.watchdog(0);
    notifier.status("running");
    try (ReceivingSocket manager = new ReceivingSocket(path())) {
      notifier.watchdog(SECOND_NS);
      notifier.status("running");
      notifier.watchdog(2 * SECOND_NS);
      assertEquals(List.of("READY=1", "WATCHDOG=1", "STATUS=running"), manager.messages());
    }
  }

  @Tag("slow")
  @Test
  void managerThatDoesNotReadBlocksNobody() throws IOException {
    try (ReceivingSocket manager = new ReceivingSocket(path())) {
      ServiceNotifier notifier = new ServiceNotifier(path(), WATCHDOG_20_S_USEC);
      assertTimeoutPreemptively(
          Duration.ofSeconds(20),
          () -> {
            for (int i = 0; i < 3000; i++) {
              notifier.status("scan " + i);
            }
            notifier.ready();
            notifier.watchdog(0);
          });
      List<String> kept = manager.messages();
      assertTrue(kept.size() < 3000, "the queue was never full");
      assertFalse(kept.contains("READY=1"));
      notifier.watchdog(SECOND_NS);
      assertEquals(List.of("READY=1", "WATCHDOG=1"), manager.messages());
    }
  }

  @Test
  void addressesAreLaidOutAsUnix7Says() throws IOException {
    byte[] family = new byte[] {NotifySocket.AF_UNIX, 0};
    if (ByteOrder.nativeOrder() == ByteOrder.BIG_ENDIAN) {
      family = new byte[] {0, NotifySocket.AF_UNIX};
    }
    // The receiver of these tests uses the same function, so a zero too many would go unseen.
    assertArrayEquals(
        new byte[] {family[0], family[1], '/', 'r', 0}, NotifySocket.socketAddress("/r"));
    assertArrayEquals(new byte[] {family[0], family[1], 0, 'r'}, NotifySocket.socketAddress("@r"));
  }

  @Test
  void addressesThatAreNoneAreRefusedButNeverThrown() {
    for (String address : List.of("relative", "@", "/" + "x".repeat(107))) {
      assertThrows(IOException.class, () -> NotifySocket.socketAddress(address));
      ServiceNotifier notifier = new ServiceNotifier(address, WATCHDOG_20_S_USEC);
      notifier.ready();
      notifier.stopping();
    }
  }

  @Test
  void environmentDecides() throws IOException {
    assertEquals(List.of("READY=1"), sentUnder(Map.of()));
    assertEquals(List.of("READY=1", "WATCHDOG=1"), sentUnder(Map.of("WATCHDOG_USEC", "20000000")));
    assertEquals(
        List.of("READY=1", "WATCHDOG=1"),
        sentUnder(Map.of("WATCHDOG_USEC", "20000000", "WATCHDOG_PID", "42")));
    assertEquals(
        List.of("READY=1"), sentUnder(Map.of("WATCHDOG_USEC", "20000000", "WATCHDOG_PID", "43")));
    assertEquals(List.of("READY=1"), sentUnder(Map.of("WATCHDOG_USEC", "soon")));
  }

  /** What process 42 sends. */
  private List<String> sentUnder(Map<String, String> watchdogEnvironment) throws IOException {
    Map<String, String> environment = new HashMap<>(watchdogEnvironment);
    String address = abstractName();
    environment.put("NOTIFY_SOCKET", address);
    try (ReceivingSocket manager = new ReceivingSocket(address)) {
      ServiceNotifier notifier = ServiceNotifier.from(Collections.unmodifiableMap(environment), 42);
      notifier.ready();
      notifier.watchdog(0);
      return manager.messages();
    }
  }
}
