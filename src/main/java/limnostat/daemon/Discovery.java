package limnostat.daemon;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Predicate;
import limnostat.alarm.AlarmState;
import limnostat.config.Configuration;
import limnostat.mqtt.Link;
import limnostat.mqtt.Presence;
import limnostat.safety.Cause;
import limnostat.wire.HomieDevice;
import limnostat.wire.HubDocument;
import limnostat.wire.Installation;

/**
 * Publishes what there is to see and to command in the conventions of other systems, if the
 * configuration asks for it. Topics that an earlier run published and this one does not are removed
 * from the broker. Owned by the scan thread; never waits.
 */
final class Discovery implements Announcer.Follower {
  private final Link link;
  private final Optional<HomieDevice> homie;
  private final Map<String, byte[]> said = new HashMap<>();

  private Discovery(Link link, Optional<HomieDevice> homie) {
    this.link = link;
    this.homie = homie;
  }

  /**
   * Call before the link is started.
   *
   * @param allows whether commands of a type may be sent over the network; for {@code off}: whether
   *     {@code mode} may be sent, but only to switch off
   */
  static Discovery begin(
      Configuration configuration, Link link, Predicate<String> allows, EventLog log) {
    Installation at =
        new Installation(
            configuration.siteId(),
            configuration.mqtt().baseTopic() + "/" + configuration.siteId(),
            Version.text(),
            configuration.scan(),
            allows,
            configuration.discovery().homie());
    Optional<HomieDevice> homie = at.homie() ? Optional.of(new HomieDevice(at)) : Optional.empty();
    List<String> topics = new ArrayList<>();
    String hubTopic = HubDocument.topic(configuration.discovery().hubPrefix(), at);
    if (configuration.discovery().hub()) {
      topics.add(hubTopic);
    }
    homie.ifPresent(
        device -> {
          topics.add(device.stateTopic());
          topics.addAll(device.topics());
        });
    new AnnouncedTopics(configuration.ledger().file(), log)
        .replace(topics)
        .forEach(topic -> link.retainAtRoot(topic, new byte[0]));
    if (configuration.discovery().hub()) {
      link.retainAtRoot(hubTopic, HubDocument.of(at));
    }
    homie.ifPresent(device -> begin(device, link));
    return new Discovery(link, homie);
  }

  private static void begin(HomieDevice device, Link link) {
    link.announceAs(
        new Presence(
            device.stateTopic(), HomieDevice.INIT, HomieDevice.DISCONNECTED, HomieDevice.LOST));
    link.alsoRead(device.setTopics());
    link.retainAtRoot(device.descriptionTopic(), device.description());
  }

  /** The convention with live values and settable topics, if it is configured. */
  Optional<HomieDevice> homie() {
    return homie;
  }

  @Override
  public void alarm(Cause alarm, AlarmState state) {
    homie.ifPresent(device -> say(device.alarmTopic(alarm), HomieDevice.alarm(state)));
  }

  @Override
  public void state(byte[] document) {
    homie.ifPresent(
        device -> {
          device.values(document).forEach(this::say);
          // Ready comes last, when everything in the description has been published.
          say(device.stateTopic(), HomieDevice.READY.getBytes(StandardCharsets.UTF_8));
        });
  }

  /** An unchanged value is already retained. */
  private void say(String topic, byte[] value) {
    byte[] before = said.put(topic, value);
    boolean never = before == null && value.length == 0;
    if (!never && !Arrays.equals(before, value)) {
      link.retainAtRoot(topic, value);
    }
  }
}
