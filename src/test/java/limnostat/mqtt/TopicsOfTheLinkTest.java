package limnostat.mqtt;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import limnostat.wire.Schemas;
import org.junit.jupiter.api.Test;

/** What the AsyncAPI document says of the connection itself is what the link does. */
class TopicsOfTheLinkTest {
  private static final Broker BROKER = new Broker(Links.plain(1883), Links.SITE);

  private static String filled(JsonNode text) {
    return text.textValue().replace("{base}", "base").replace("{site}", Links.SITE);
  }

  @Test
  void theConnectionIsAsTold() throws Exception {
    JsonNode document = new ObjectMapper().readTree(Schemas.file(Schemas.TOPICS));
    JsonNode mqtt = document.at("/servers/broker/bindings/mqtt");
    assertEquals(BROKER.clientId(), filled(mqtt.path("clientId")));
    assertEquals(LinkTimes.DEFAULT.keepAlive().toSeconds(), mqtt.path("keepAlive").longValue());
    assertTrue(mqtt.path("cleanSession").booleanValue());
    assertEquals(BROKER.topic(Worker.AVAILABILITY), filled(mqtt.at("/lastWill/topic")));
    assertEquals(Worker.OFFLINE, mqtt.at("/lastWill/message").textValue());
    assertEquals(
        BROKER.topic(Worker.AVAILABILITY), filled(document.at("/channels/availability/address")));
    assertEquals(BROKER.topic(Worker.COMMAND), filled(document.at("/channels/command/address")));
    document
        .path("operations")
        .forEach(o -> assertEquals(Session.QOS, o.at("/bindings/mqtt/qos").intValue()));
    assertEquals(Session.QOS, mqtt.at("/lastWill/qos").intValue());
  }
}
