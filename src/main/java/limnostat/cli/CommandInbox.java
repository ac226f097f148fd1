package limnostat.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import limnostat.mqtt.Inbound;
import limnostat.mqtt.Link;
import limnostat.scan.Command;
import limnostat.wire.CommandReader;

/**
 * What came in over the link since the last scan, read as commands; what was dropped is answered
 * too.
 */
final class CommandInbox {
  private final Link link;
  private final String origin;
  private final List<Command.Request> first;
  private Translation others = (topic, value) -> value;

  /** Makes a command document of what came on another topic than the command's. */
  interface Translation {
    byte[] command(String topic, byte[] value);
  }

  CommandInbox(Link link) {
    this(link, "mqtt", List.of());
  }

  /**
   * @param origin what is known of a sender: MQTT 3.1.1 tells a receiver the topic, and nothing of
   *     the client that published
   * @param first what a person at the board asked for before the start
   */
  CommandInbox(Link link, String origin, List<Command.Request> first) {
    this.link = link;
    this.origin = origin;
    this.first = new ArrayList<>(first);
  }

  List<Command.Request> take() {
    List<Command.Request> requests = new ArrayList<>(first);
    first.clear();
    for (Optional<Inbound> in = link.pollCommand(); in.isPresent(); in = link.pollCommand()) {
      requests.add(read(in.get()));
    }
    return requests;
  }

  void translate(Translation translation) {
    others = translation;
  }

  private Command.Request read(Inbound in) {
    if (in instanceof Inbound.Command command) {
      return CommandReader.read(command.payload(), origin);
    }
    if (in instanceof Inbound.Other other) {
      return CommandReader.read(
          others.command(other.topic(), other.payload()), "mqtt " + other.topic());
    }
    return CommandReader.unreadable(((Inbound.Refused) in).reason().text(), origin);
  }
}
