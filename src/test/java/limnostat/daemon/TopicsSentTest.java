package limnostat.daemon;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.mockito.ArgumentMatchers.any;
import static org.mockito.Mockito.doAnswer;
import static org.mockito.Mockito.mock;
import static org.mockito.Mockito.when;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import limnostat.account.DoseTotals;
import limnostat.alarm.AlarmState;
import limnostat.ledger.Health;
import limnostat.ledger.Ledger;
import limnostat.ledger.Moment;
import limnostat.mqtt.Link;
import limnostat.mqtt.LinkHealth;
import limnostat.safety.Cause;
import limnostat.safety.RunHealth;
import limnostat.scan.ScanEvent;
import limnostat.wire.Schemas;
import limnostat.wire.Sent;
import org.junit.jupiter.api.Test;

/**
 * What the program sends, by topic and retain flag, is what the AsyncAPI document says, no more.
 */
class TopicsSentTest {
  private final Set<String> sent = new TreeSet<>();

  private Object note(String way, String topic, byte[] document) {
    Sent.check(topic, document);
    return sent.add(way + " {base}/{site}/" + topic.replaceFirst("^alarm/.*", "alarm/{alarm}"));
  }

  private static JsonNode document() throws Exception {
    return new ObjectMapper().readTree(Schemas.file(Schemas.TOPICS));
  }

  @Test
  void theDocumentIsWhatIsSent() throws Exception {
    Link link = mock(Link.class);
    doAnswer(c -> note("retain", c.getArgument(0), c.getArgument(1)))
        .when(link)
        .retain(any(), any());
    doAnswer(c -> note("event", c.getArgument(0), c.getArgument(1))).when(link).event(any(), any());
    doAnswer(c -> note("event", c.getArgument(0), c.getArgument(1))).when(link).note(any(), any());
    doAnswer(c -> note("event", c.getArgument(0), c.getArgument(1)))
        .when(link)
        .reading(any(), any());
    when(link.away()).thenReturn(true);
    Announcer announcer =
        new Announcer(link, 10, Outcomes.START, new Moment(0, 1.7e9, true, "boot"));
    DoseTotals totals = DoseTotals.START.step(DoseTotals.Amounts.NONE, 20_000, true, 1).totals();
    announcer.announce(
        Outcomes.with(
            new ScanEvent.AlarmChanged(
                Cause.ORP_HIGH, AlarmState.NORMAL, AlarmState.UNACKNOWLEDGED),
            new ScanEvent.DayEnded(totals),
            new ScanEvent.Accepted(Outcomes.mode())),
        Outcomes.at(1));
    Ledger ledger = mock(Ledger.class);
    Health written = mock(Health.class);
    when(written.failingSinceS()).thenReturn(OptionalDouble.empty());
    when(ledger.health()).thenReturn(written);
    LinkHealth connected = mock(LinkHealth.class);
    when(link.health()).thenReturn(connected);
    new HealthTopic(link, ledger, new Clock.OfSystem())
        .tell(new ScanTiming(1, 1), RunHealth.START, System.nanoTime());
    sent.add("retain {base}/{site}/availability"); // the link's own; TopicsOfTheLinkTest

    JsonNode document = document();
    Set<String> told = new TreeSet<>();
    for (JsonNode operation : document.path("operations")) {
      if (operation.path("action").textValue().equals("send")) {
        JsonNode channel = document.at(operation.at("/channel/$ref").textValue().substring(1));
        told.add(
            (operation.at("/bindings/mqtt/retain").booleanValue() ? "retain " : "event ")
                + channel.path("address").textValue());
      }
    }
    assertEquals(told, sent);
  }

  /** The page's table of topics has the same rows. */
  @Test
  void thePageNamesTheSameTopics() throws Exception {
    JsonNode document = document();
    Set<String> addresses = new TreeSet<>();
    document
        .path("channels")
        .forEach(c -> addresses.add(c.path("address").textValue().replace("{base}/{site}/", "")));
    String page = Files.readString(Path.of("src/site/markdown/mqtt.md"));
    int from = page.indexOf("| topic | retained | content |");
    Set<String> rows =
        page.substring(from, page.indexOf("\n\n", from))
            .lines()
            .skip(2)
            .map(line -> line.replaceFirst("^\\| `([^`]+)`.*", "$1").replace("<id>", "{alarm}"))
            .collect(Collectors.toCollection(TreeSet::new));
    assertEquals(addresses, rows);
  }
}
