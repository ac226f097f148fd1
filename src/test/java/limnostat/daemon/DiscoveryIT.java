package limnostat.daemon;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import limnostat.rig.ConfigText;
import limnostat.rig.Program;
import limnostat.rig.TestBroker;
import limnostat.wire.HubEntity;
import limnostat.wire.HubTemplate;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/**
 * A client that acts as a hub does, at a real broker: it knows what the discovery tells, follows
 * every topic and template of it, and sends every command that it is offered.
 */
@Timeout(180)
class DiscoveryIT {
  private static final String HUB = "hub/discovery/device/limnostat-garden/config";
  private static final String HOMIE = "homie/5/limnostat-garden/";
  private static final String RESULT = "limnostat/garden/result";

  @TempDir Path folder;

  private Program daemon(TestBroker broker, boolean hub, boolean homie) throws IOException {
    Path config =
        ConfigText.feedingSoon()
            // Water that is as it should be, so that each command may be accepted.
            .with("pool.free_chlorine", "\"3 mg/L\"")
            .with("target.free_chlorine", "\"3 mg/L\"")
            .with("limits.free_chlorine_high", "\"5 mg/L\"")
            .with("limits.blind_feed", "\"5 mg/L\"")
            .withBroker(broker.port())
            .with("mqtt.discovery_hub", "" + hub)
            .with("mqtt.discovery_prefix", "\"hub/discovery\"")
            .with("mqtt.homie", "" + homie)
            .write(folder);
    return Program.limnostat("run", "--config", config.toString());
  }

  @Test
  void aHubSeesEveryValueAndEachCommandItIsOfferedIsAnswered() throws Exception {
    try (TestBroker broker = TestBroker.start();
        Program daemon = daemon(broker, true, false);
        HubClient hub = new HubClient(broker)) {
      hub.await(HUB);
      JsonNode document = hub.json(HUB);
      assertTrue(document.at("/device/name").isTextual());
      JsonNode availability = document.at("/availability/0");
      hub.await(
          availability.path("topic").textValue(),
          availability.path("payload_available").textValue());
      List<HubEntity> entities = HubEntity.of(document);
      for (HubEntity entity : entities) {
        for (String topic :
            List.of(entity.text("state_topic"), entity.text("json_attributes_topic"))) {
          if (!topic.isEmpty()) {
            hub.await(topic);
          }
        }
        if (entity.has("state_topic")) {
          entity.value(hub.newest().get(entity.text("state_topic")));
        }
      }
      assertEquals("False", shown(hub, entities, "alarm_tank_low"));
      int offered = 0;
      Set<String> accepted = new TreeSet<>();
      List<String> refused = new ArrayList<>();
      for (HubEntity entity : entities) {
        if (!entity.has("command_topic")) {
          continue;
        }
        List<String> commands = new ArrayList<>(entity.commands());
        if (entity.text("platform").equals("select")) {
          // Auto last, which superchlorination needs; twice in 10 minutes it would be a repeat.
          commands.add(commands.remove(0));
        }
        for (String command : commands) {
          JsonNode answer = hub.ask(entity.text("command_topic"), command, RESULT);
          offered++;
          if (answer.path("result").textValue().equals("accepted")) {
            accepted.add(answer.path("type").textValue());
          } else {
            String reason = answer.path("reason").asText();
            refused.add(answer.path("type").asText() + ": " + reason);
            assertFalse(
                reason.isEmpty() || reason.matches("unknown (type|field).*|.* is wanted.*"),
                command + " " + answer);
          }
        }
      }
      assertTrue(offered > 60, offered + " commands");
      assertEquals(
          // A test of nothing is among the tests, and its alarm can be acknowledged.
          Set.of(
              "acknowledge", "function_check", "mode", "superchlorinate", "target", "test_result"),
          accepted,
          refused::toString);
      retainedOf(broker, HUB);
      daemon.signal("TERM");
      hub.await(
          availability.path("topic").textValue(),
          availability.path("payload_not_available").textValue());
    }
  }

  /** What an entity shows of what was seen last. */
  private static String shown(HubClient hub, List<HubEntity> entities, String id) {
    HubEntity entity = entities.stream().filter(e -> e.id().equals(id)).findFirst().orElseThrow();
    return entity.value(hub.newest().get(entity.text("state_topic")));
  }

  /** One who comes later gets it too. */
  private static void retainedOf(TestBroker broker, String topic) throws Exception {
    try (HubClient late = new HubClient(broker)) {
      late.await(topic);
      assertTrue(
          late.seen().stream().anyMatch(m -> m.topic().equals(topic) && m.retained()), topic);
    }
  }

  @Test
  void aHomieControllerFindsWhatTheDescriptionPromisesAndCanSetIt() throws Exception {
    try (TestBroker broker = TestBroker.start();
        HubClient controller = new HubClient(broker)) {
      try (Program daemon = daemon(broker, true, true)) {
        controller.await(HOMIE + "$state", "ready");
        List<String> order =
            controller.seen().stream()
                .map(HubClient.Message::topic)
                .filter(topic -> topic.startsWith(HOMIE))
                .distinct()
                .toList();
        assertEquals(HOMIE + "$state", order.get(0), "init before all else");
        List<HubClient.Message> states = states(controller);
        assertEquals("init", states.get(0).text());
        int ready = controller.seen().indexOf(states.get(1));
        JsonNode nodes = controller.json(HOMIE + "$description").path("nodes");
        Map<String, String> before =
            controller.seen().subList(0, ready).stream()
                .filter(m -> !m.text().isEmpty())
                .collect(
                    Collectors.toMap(
                        HubClient.Message::topic, HubClient.Message::text, (a, b) -> b));
        Set<String> absent = new TreeSet<>();
        nodes
            .properties()
            .forEach(
                node ->
                    node.getValue()
                        .path("properties")
                        .properties()
                        .forEach(
                            property -> {
                              String topic = HOMIE + node.getKey() + "/" + property.getKey();
                              if (property.getValue().path("retained").asBoolean(true)
                                  && !before.containsKey(topic)) {
                                absent.add(node.getKey() + "/" + property.getKey());
                              }
                            }));
        assertTrue(
            Set.of(
                    "plant/solar",
                    "doses/chlorine-season",
                    "doses/acid-season",
                    "water/ph",
                    "water/orp",
                    "water/temperature")
                .containsAll(absent),
            "without a value though ready: " + absent);

        assertEquals(
            "accepted",
            controller.ask(HOMIE + "control/target/set", "1.5", RESULT).path("result").textValue());
        controller.await(HOMIE + "control/target", "1.5");
        JsonNode refused = controller.ask(HOMIE + "control/target/set", "7.9", RESULT);
        assertEquals("refused", refused.path("result").textValue());
        assertTrue(refused.path("reason").textValue().contains("limits.free_chlorine_high"));
        assertTrue(
            refused.path("origin").textValue().endsWith(HOMIE + "control/target/set"),
            refused.toString());
        controller.ask(HOMIE + "control/mode/set", "off", RESULT);
        controller.await(HOMIE + "control/mode", "off");

        JsonNode availability = controller.json(HUB).at("/availability/0");
        assertEquals(HOMIE + "$state", availability.path("topic").textValue());
        assertEquals(
            "True", HubTemplate.render(availability.path("value_template").textValue(), "ready"));
        assertFalse(controller.newest().containsKey("limnostat/garden/availability"));
        daemon.kill();
        controller.await(HOMIE + "$state", "lost");
      }
      try (Program daemon = daemon(broker, true, true)) {
        controller.await(HOMIE + "$state", "ready");
        daemon.signal("TERM");
        controller.await(HOMIE + "$state", "disconnected");
        daemon.exit();
      }
    }
  }

  private static List<HubClient.Message> states(HubClient controller) {
    return controller.seen().stream().filter(m -> m.topic().equals(HOMIE + "$state")).toList();
  }

  @Test
  void whatIsSwitchedOffIsGoneFromTheBroker() throws Exception {
    try (TestBroker broker = TestBroker.start()) {
      try (HubClient hub = new HubClient(broker);
          Program daemon = daemon(broker, true, true)) {
        hub.await(HUB);
        hub.await(HOMIE + "$state", "ready");
        daemon.signal("TERM");
        daemon.exit();
      }
      try (Program daemon = daemon(broker, false, false);
          HubClient hub = new HubClient(broker)) {
        hub.await("limnostat/garden/availability", "online");
        Program.await(
            "nothing but our own topics",
            () -> hub.newest().keySet().stream().allMatch(t -> t.startsWith("limnostat/")));
        try (HubClient late = new HubClient(broker)) {
          late.await("limnostat/garden/state");
          assertEquals(
              List.of(),
              late.seen().stream()
                  .filter(m -> !m.topic().startsWith("limnostat/"))
                  .map(HubClient.Message::topic)
                  .toList());
        }
        assertTrue(daemon.alive());
      }
    }
  }

  /** Who never switched anything on sends nothing to anybody else's topics. */
  @Test
  void withoutTheSwitchesNoOtherTopicIsTouched() throws Exception {
    try (TestBroker broker = TestBroker.start();
        HubClient hub = new HubClient(broker);
        Program daemon = daemon(broker, false, false)) {
      hub.await("limnostat/garden/health");
      assertTrue(hub.seen().stream().allMatch(m -> m.topic().startsWith("limnostat/garden/")));
      assertTrue(daemon.alive());
    }
  }
}
