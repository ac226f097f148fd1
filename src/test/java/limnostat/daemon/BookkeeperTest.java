package limnostat.daemon;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.mockito.ArgumentMatchers.any;
import static org.mockito.Mockito.doAnswer;
import static org.mockito.Mockito.mock;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import limnostat.account.DoseAccount;
import limnostat.actuate.Output;
import limnostat.alarm.AlarmState;
import limnostat.control.Mode;
import limnostat.estimate.Product;
import limnostat.ledger.Entry;
import limnostat.ledger.Ledger;
import limnostat.safety.Cause;
import limnostat.scan.Command;
import limnostat.scan.OutputState;
import limnostat.scan.ScanEvent;
import limnostat.scan.ScanState;
import limnostat.wire.SavedState;
import org.junit.jupiter.api.Test;

class BookkeeperTest {
  private final List<Entry> offered = new ArrayList<>();
  private final Bookkeeper bookkeeper = new Bookkeeper(ledger(), 600, Outcomes.START);

  private Ledger ledger() {
    Ledger ledger = mock(Ledger.class);
    doAnswer(call -> offered.add(call.getArgument(0))).when(ledger).offer(any());
    return ledger;
  }

  private <T extends Entry> List<T> take(Class<T> kind) {
    List<T> entries = offered.stream().filter(kind::isInstance).map(kind::cast).toList();
    offered.clear();
    return entries;
  }

  private static ScanState chlorine(double givenG, double requestedG) {
    ScanState s = Outcomes.START;
    DoseAccount account = new DoseAccount(givenG, requestedG, new double[1440], givenG, 0, 0, 0);
    return new ScanState(
        s.phase(),
        s.measure(),
        s.estimate(),
        s.control(),
        s.safety(),
        new OutputState(s.chlorine().modulator(), account),
        s.acid(),
        s.alarms(),
        s.sun(),
        s.annunciator(),
        s.totals());
  }

  @Test
  void aBookingGoesOutOnceAndAtOnce() {
    bookkeeper.keep(Outcomes.with(chlorine(0, 0)), Outcomes.at(0));
    assertEquals(List.of(), take(Entry.Booking.class));
    bookkeeper.keep(Outcomes.with(chlorine(0, 2)), Outcomes.at(1));
    assertEquals(
        List.of(new Entry.Booking(Output.CHLORINE, 2, Outcomes.at(1))), take(Entry.Booking.class));
    bookkeeper.keep(Outcomes.with(chlorine(1, 2)), Outcomes.at(2));
    assertEquals(List.of(), take(Entry.Booking.class));
    bookkeeper.keep(Outcomes.with(chlorine(1, 3)), Outcomes.at(3));
    assertEquals(1, take(Entry.Booking.class).size());
  }

  @Test
  void givenAmountsAreHandedOverByTheMinuteAndAddUp() {
    double sum = 0;
    int entries = 0;
    for (int s = 0; s <= 600; s++) {
      bookkeeper.keep(Outcomes.with(chlorine(0.01 * s, 10)), Outcomes.at(s));
      for (Entry.Given given : take(Entry.Given.class)) {
        assertEquals(0, given.hourUnixS() % 3600);
        sum += given.to() - given.from();
        entries++;
      }
    }
    bookkeeper.close(chlorine(6.5, 10), Outcomes.at(601));
    sum += take(Entry.Given.class).stream().mapToDouble(g -> g.to() - g.from()).sum();
    assertEquals(6.5, sum, 1e-9);
    assertEquals(10, entries);
  }

  /** What an earlier process gave is not given again. */
  @Test
  void aResumedTotalIsNoDose() {
    Bookkeeper resumed = new Bookkeeper(ledger(), 600, chlorine(500, 500));
    resumed.keep(Outcomes.with(chlorine(500, 500)), Outcomes.at(0));
    assertEquals(List.of(), take(Entry.Given.class));
  }

  @Test
  void theStateIsSavedAtOnceThenNowAndThen() throws IOException {
    bookkeeper.keep(Outcomes.with(), Outcomes.at(100));
    List<Entry.State> first = take(Entry.State.class);
    assertEquals(1, first.size());
    assertEquals(Outcomes.with().state(), SavedState.read(first.get(0).json()));
    for (int s = 101; s < 400; s++) {
      bookkeeper.keep(Outcomes.with(), Outcomes.at(s));
    }
    assertEquals(0, take(Entry.State.class).size());
    bookkeeper.keep(Outcomes.with(), Outcomes.at(400));
    assertEquals(1, take(Entry.State.class).size());
  }

  /** A power cut a second later must not undo a person's choice, an alarm or a latch. */
  @Test
  void whatMustLastIsSavedAtOnce() {
    bookkeeper.keep(Outcomes.with(), Outcomes.at(0));
    offered.clear();
    List<ScanEvent> lasting =
        List.of(
            new ScanEvent.Accepted(Outcomes.mode()),
            new ScanEvent.ModeChanged(Mode.AUTO, Mode.OFF),
            new ScanEvent.AlarmChanged(
                Cause.ORP_HIGH, AlarmState.NORMAL, AlarmState.UNACKNOWLEDGED),
            new ScanEvent.Tripped(Cause.CELL_CURRENT_UNEXPECTED, true));
    for (ScanEvent event : lasting) {
      bookkeeper.keep(Outcomes.with(event), Outcomes.at(1));
      assertEquals(1, take(Entry.State.class).size(), event.toString());
    }
    for (ScanEvent event :
        List.of(
            new ScanEvent.Refused(Outcomes.mode(), "no"),
            new ScanEvent.Tripped(Cause.NO_FLOW, true),
            new ScanEvent.Interrupted(90))) {
      bookkeeper.keep(Outcomes.with(event), Outcomes.at(1));
      assertEquals(0, take(Entry.State.class).size(), event.toString());
    }
  }

  @Test
  void everyEventIsKeptAndAlarmsUrgently() {
    bookkeeper.keep(
        Outcomes.with(
            new ScanEvent.Refused(Outcomes.mode(), "no"),
            new ScanEvent.AlarmChanged(
                Cause.ORP_HIGH, AlarmState.NORMAL, AlarmState.UNACKNOWLEDGED)),
        Outcomes.at(0));
    List<Entry.Event> events = take(Entry.Event.class);
    assertEquals(List.of("command", "alarm"), events.stream().map(Entry.Event::kind).toList());
    assertEquals(List.of(false, true), events.stream().map(Entry.Event::urgent).toList());
  }

  @Test
  void acceptedCommandsAreSettingsOrTests() {
    bookkeeper.keep(
        Outcomes.with(
            new ScanEvent.Accepted(Outcomes.mode()), new ScanEvent.Accepted(Outcomes.test())),
        Outcomes.at(0));
    List<Entry> kept = List.copyOf(offered);
    assertTrue(
        kept.contains(new Entry.Setting(Outcomes.at(0), "mode", "{\"type\":\"mode\"}", "mqtt")));
    assertTrue(kept.contains(new Entry.WaterTest(Outcomes.at(0), "{\"ph\":7.4}")));
    offered.clear();
    bookkeeper.keep(Outcomes.with(new ScanEvent.Refused(Outcomes.test(), "no")), Outcomes.at(1));
    assertEquals(List.of(), take(Entry.WaterTest.class));
  }

  /** A list that was asked for is no entry. */
  @Test
  void acceptedAdditionsHaveATableOfTheirOwn() {
    List<ScanEvent> accepted = new ArrayList<>();
    for (Command command :
        List.of(
            new Command.Add(
                Product.SALT,
                500,
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                OptionalDouble.empty()),
            new Command.UndoAddition("a1"),
            new Command.ListAdditions())) {
      String document = "{\"of\":\"" + command.getClass().getSimpleName() + "\"}";
      accepted.add(
          new ScanEvent.Accepted(
              new Command.Request(Optional.empty(), "any", "mqtt", document, command)));
    }
    bookkeeper.keep(Outcomes.with(accepted.toArray(ScanEvent[]::new)), Outcomes.at(0));
    assertEquals(
        List.of(
            new Entry.Addition(Outcomes.at(0), "{\"of\":\"Add\"}"),
            new Entry.Addition(Outcomes.at(0), "{\"of\":\"UndoAddition\"}")),
        offered.stream().filter(Entry.Addition.class::isInstance).toList());
    assertEquals(List.of(), take(Entry.Setting.class));
  }

  @Test
  void readingsAreThinned() {
    for (int s = 0; s <= 1800; s++) {
      bookkeeper.keep(Outcomes.with(), Outcomes.at(s));
    }
    assertEquals(4, take(Entry.Readings.class).size());
  }

  @Test
  void theLastWordIsAClosingState() {
    bookkeeper.close(chlorine(1, 2), Outcomes.at(9));
    List<Entry> kept = List.copyOf(offered);
    assertEquals(2, kept.size());
    Entry.Given given = (Entry.Given) kept.get(0);
    assertEquals(1, given.to() - given.from());
    assertTrue(((Entry.State) kept.get(1)).atOnce());
  }
}
