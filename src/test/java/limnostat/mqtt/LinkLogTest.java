package limnostat.mqtt;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import org.junit.jupiter.api.Test;

class LinkLogTest {
  private final LinkLog log = new LinkLog("box:1883");

  @Test
  void eachCauseOnceThenHowLongItTook() {
    assertEquals(Optional.of("MQTT link to box:1883 is up"), log.connected(0));
    assertEquals(Optional.empty(), log.settled(10));
    assertEquals(Optional.of("MQTT link down: gone"), log.down("gone", false, 100));
    assertEquals(Optional.of("MQTT link down: refused"), log.down("refused", false, 101));
    assertEquals(Optional.empty(), log.down("refused", false, 103));
    assertEquals(Optional.empty(), log.down("gone", false, 107));
    assertEquals(Optional.of("MQTT link is up again after 65 s"), log.connected(165));
    assertEquals(Optional.of("MQTT link down: gone"), log.down("gone", false, 200));
  }

  @Test
  void aLinkThatComesAndGoesIsOneOutage() {
    log.connected(0);
    assertEquals(Optional.of("MQTT link down: gone"), log.down("gone", true, 1));
    for (int s = 2; s < 50; s += 2) {
      assertEquals(Optional.empty(), log.connected(s));
      assertEquals(Optional.empty(), log.down("gone", true, s + 1));
    }
    assertEquals(Optional.empty(), log.connected(50));
    assertEquals(Optional.of("MQTT link is up again after 59 s"), log.settled(60));
    assertEquals(Optional.empty(), log.settled(61));
  }

  @Test
  void causesThatDifferWithoutEndFallSilent() {
    long lines = 0;
    for (int i = 0; i < 1000; i++) {
      lines += log.down("cause " + i, false, i).stream().count();
    }
    assertEquals(8, lines);
  }

  @Test
  void whatPilesUpIsToldOnce() {
    assertEquals(Optional.empty(), log.waiting(false, 0));
    assertTrue(log.waiting(true, 0).orElseThrow().contains("mqtt.outbox_messages"));
    assertEquals(Optional.empty(), log.waiting(true, 0));
    assertTrue(log.waiting(true, 1).orElseThrow().contains("the ledger's events"));
    assertEquals(Optional.empty(), log.waiting(true, 9));
  }
}
