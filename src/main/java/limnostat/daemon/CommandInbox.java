package limnostat.daemon;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import limnostat.mqtt.Inbound;
import limnostat.mqtt.Link;
import limnostat.scan.Command;
import limnostat.scan.ScanEvent;
import limnostat.wire.CommandReader;

/**
 * What people requested since the last scan, over the link and at the machine, parsed into
 * commands. A dropped request is also answered; where answers would feed a flood, it is counted in
 * the log instead.
 */
public final class CommandInbox {
  /** Shortest time between two log lines about dropped requests, s. */
  private static final double TELL_EVERY_S = 60;

  private final Link link;
  private final String origin;
  private final Optional<Board> board;
  private double reportedAtS = Double.NEGATIVE_INFINITY;
  private long reported;

  /** Commands entered at the machine, and the log for requests that cannot be answered. */
  private record Board(LocalCommandFolder spool, EventLog log, Clock clock) {}

  private Translation others = (topic, value) -> value;
  private Optional<String> refusal = Optional.empty();

  /**
   * Makes a command document from a message that arrived on a topic other than the command topic.
   */
  interface Translation {
    byte[] command(String topic, byte[] value);
  }

  public CommandInbox(Link link) {
    this(link, Command.Request.NETWORK, Optional.empty());
  }

  /**
   * @param origin what is known of a sender: MQTT 3.1.1 gives a receiver the topic, but not the
   *     client that published
   * @param spool where a person at the machine leaves commands
   */
  CommandInbox(Link link, String origin, LocalCommandFolder spool, EventLog log, Clock clock) {
    this(link, origin, Optional.of(new Board(spool, log, clock)));
  }

  private CommandInbox(Link link, String origin, Optional<Board> board) {
    this.link = link;
    this.origin = origin;
    this.board = board;
  }

  public List<Command.Request> take() {
    List<Command.Request> requests = new ArrayList<>();
    board.ifPresent(b -> requests.addAll(b.spool.take()));
    for (Optional<Inbound> in = link.pollCommand(); in.isPresent(); in = link.pollCommand()) {
      requests.add(read(in.get()));
    }
    board.ifPresent(this::tellDropped);
    return refusal.isPresent()
        ? requests.stream().map(r -> refused(r, refusal.get())).toList()
        : requests;
  }

  /** Refuses every command from now on, for this reason. */
  void refuse(String reason) {
    refusal = Optional.of(reason);
  }

  private static Command.Request refused(Command.Request request, String reason) {
    return new Command.Request(
        request.requestId(),
        request.type(),
        request.origin(),
        request.document(),
        new Command.Unreadable(reason));
  }

  void translate(Translation translation) {
    others = translation;
  }

  private Command.Request read(Inbound in) {
    return in instanceof Inbound.Refused refused
        ? CommandReader.refused(
            refused.reason().text(), document(refused.what()), origin(refused.what()))
        : CommandReader.read(document(in), origin(in));
  }

  private byte[] document(Inbound in) {
    return in instanceof Inbound.Other other
        ? others.command(other.topic(), other.payload())
        : ((Inbound.Command) in).payload();
  }

  private String origin(Inbound in) {
    return in instanceof Inbound.Other other
        ? Command.Request.NETWORK + " " + other.topic()
        : origin;
  }

  /** Passes on the outcome of the commands. */
  void answered(List<ScanEvent> events) {
    board.ifPresent(b -> b.spool.answered(events));
  }

  private void tellDropped(Board b) {
    Map<Inbound.Reason, Long> refused = link.health().refusedCommands();
    long dropped =
        refused.getOrDefault(Inbound.Reason.TOO_MANY, 0L)
            + refused.getOrDefault(Inbound.Reason.QUEUE_FULL, 0L);
    double nowS = b.clock.monotonicS();
    if (dropped > reported && nowS - reportedAtS >= TELL_EVERY_S) {
      b.log.warn(
          dropped
              - reported
              + " commands over MQTT were dropped without an answer: "
              + Inbound.Reason.TOO_MANY.text());
      reported = dropped;
      reportedAtS = nowS;
    }
  }
}
