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
  private static final String ORIGIN = "mqtt";

  private final Link link;

  CommandInbox(Link link) {
    this.link = link;
  }

  List<Command.Request> take() {
    List<Command.Request> requests = new ArrayList<>();
    for (Optional<Inbound> in = link.pollCommand(); in.isPresent(); in = link.pollCommand()) {
      requests.add(
          in.get() instanceof Inbound.Command command
              ? CommandReader.read(command.payload(), ORIGIN)
              : CommandReader.unreadable(((Inbound.Refused) in.get()).reason().text(), ORIGIN));
    }
    return requests;
  }
}
