package limnostat.ledger;

import static limnostat.ledger.Samples.at;
import static limnostat.ledger.Samples.event;
import static limnostat.ledger.Samples.readings;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import limnostat.actuate.Output;
import org.junit.jupiter.api.Test;

class BacklogTest {
  private final Backlog backlog = new Backlog(4);

  @Test
  void dropsReadingsThenEventsThenAlarmsAndTestsLast() {
    Entry.WaterTest test = new Entry.WaterTest(at(0), "{}");
    backlog.offer(test);
    backlog.offer(readings(1));
    backlog.offer(readings(2));
    backlog.offer(event(3, false));
    assertEquals(new Health.Dropped(0, 0, 0), backlog.dropped());
    backlog.offer(event(4, true));
    backlog.offer(event(5, true));
    assertEquals(new Health.Dropped(2, 0, 0), backlog.dropped());
    backlog.offer(new Entry.Setting(at(6), "a", "1", "mqtt"));
    assertEquals(new Health.Dropped(2, 1, 0), backlog.dropped());
    backlog.offer(readings(7));
    backlog.offer(event(8, false));
    assertEquals(new Health.Dropped(3, 2, 0), backlog.dropped());
    backlog.offer(event(9, true));
    assertEquals(new Health.Dropped(3, 2, 1), backlog.dropped());
    assertEquals(
        List.of(test, event(5, true), new Entry.Setting(at(6), "a", "1", "mqtt"), event(9, true)),
        backlog.take().journal());
    assertTrue(backlog.isEmpty());
  }

  /** A refusal brings nothing that is urgent, and somebody waits for its answer. */
  @Test
  void whatAMarkIsBehindWaitsForNoBatch() {
    backlog.offer(event(1, false));
    assertFalse(backlog.urgent());
    assertEquals(1, backlog.mark());
    assertTrue(backlog.urgent());
    assertEquals(1, backlog.take().journal().size());
    assertEquals(1, backlog.mark());
    assertFalse(backlog.urgent(), "there is nothing to commit");
  }

  @Test
  void coalescesWithoutLosingAmounts() {
    for (int i = 1; i <= 1000; i++) {
      backlog.offer(new Entry.Booking(Output.CHLORINE, i, at(i)));
      backlog.offer(new Entry.Given(Output.CHLORINE, 3600 + i, 0.5 * (i - 1), 0.5 * i));
      backlog.offer(new Entry.State(new byte[] {1}, at(i), false));
    }
    Batch batch = backlog.take();
    assertEquals(List.of(new Entry.Booking(Output.CHLORINE, 1000, at(1000))), batch.bookings());
    assertEquals(List.of(new Entry.Given(Output.CHLORINE, 3600, 0, 500)), batch.given());
    assertEquals(at(1000), batch.state().orElseThrow().moment());
    assertEquals(new Health.Dropped(0, 0, 0), backlog.dropped());
  }
}
