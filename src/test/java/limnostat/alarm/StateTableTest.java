package limnostat.alarm;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.EnumMap;
import java.util.EnumSet;
import java.util.Map;
import java.util.Set;
import limnostat.safety.Cause;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Every state of ISA-18.2's diagram (A to I, from memory) against every event, for an alarm whose
 * cause latches. Where the standard leaves a silence to A or B, ours also keeps what a person has
 * seen (suppressed) and what came and went (shelved). An event that cannot be is left as it was.
 */
class StateTableTest {
  /** It latches, has delays of 0 and 60 s, and the machine below knows no priority. */
  private static final Cause ALARM = Cause.CELL_CURRENT_UNEXPECTED;

  // columns: the cause comes; goes, its latch stays; goes, and the latch with it (a reset);
  // acknowledged; shelved; taken from the shelf while there, while gone; out of service
  @ParameterizedTest
  @CsvSource(
      nullValues = "-",
      value = {
        // state                 comes  latch-only  clear   ack   shelve  out
        "NORMAL,                  UNACKNOWLEDGED, LATCHED_UNACKNOWLEDGED, NORMAL, -, SHELVED, OUT_OF_SERVICE",
        "UNACKNOWLEDGED,          UNACKNOWLEDGED, LATCHED_UNACKNOWLEDGED, RETURNED_UNACKNOWLEDGED, ACKNOWLEDGED, SHELVED, OUT_OF_SERVICE",
        "ACKNOWLEDGED,            ACKNOWLEDGED, LATCHED, NORMAL, -, SHELVED, OUT_OF_SERVICE",
        "RETURNED_UNACKNOWLEDGED, UNACKNOWLEDGED, LATCHED_UNACKNOWLEDGED, RETURNED_UNACKNOWLEDGED, NORMAL, SHELVED, OUT_OF_SERVICE",
        "LATCHED_UNACKNOWLEDGED,  UNACKNOWLEDGED, LATCHED_UNACKNOWLEDGED, RETURNED_UNACKNOWLEDGED, LATCHED, SHELVED, OUT_OF_SERVICE",
        "LATCHED,                 UNACKNOWLEDGED, LATCHED, NORMAL, -, SHELVED, OUT_OF_SERVICE",
        "SHELVED,                 SHELVED, SHELVED, SHELVED, -, SHELVED, OUT_OF_SERVICE",
        "SUPPRESSED,              SUPPRESSED, SUPPRESSED, SUPPRESSED, -, SHELVED, OUT_OF_SERVICE",
        "OUT_OF_SERVICE,          OUT_OF_SERVICE, OUT_OF_SERVICE, OUT_OF_SERVICE, -, -, OUT_OF_SERVICE",
      })
  void everyStateAgainstEveryEvent(
      AlarmState from,
      AlarmState comes,
      AlarmState latched,
      AlarmState clear,
      AlarmState acknowledged,
      AlarmState shelved,
      AlarmState out) {
    Map<Cause, Alarms.Entry> entries = entries(from);
    boolean isOut = from == AlarmState.OUT_OF_SERVICE;
    assertEquals(comes, after(entries, Set.of(ALARM), Set.of(ALARM), isOut), "comes");
    assertEquals(latched, after(entries, Set.of(ALARM), Set.of(), isOut), "goes, latched");
    if (from != AlarmState.SUPPRESSED) {
      assertEquals(clear, after(entries, Set.of(), Set.of(), isOut), "gone and reset");
    }
    assertEquals(acknowledged != null, Alarms.acknowledgeable(entries, ALARM), "acknowledgeable");
    if (acknowledged != null) {
      assertEquals(
          acknowledged, state(Alarms.acknowledge(entries, Annunciator.QUIET, ALARM)), "seen");
    }
    if (shelved != null) {
      assertEquals(
          shelved,
          state(Alarms.shelve(entries, Annunciator.QUIET, ALARM, 600, 0, true)),
          "shelved");
    }
    assertEquals(out, after(entries, Set.of(ALARM), Set.of(ALARM), true), "out of service");
  }

  /** What lies under a shelf while it runs, and what is shown when it ends. */
  @ParameterizedTest
  @CsvSource({
    "NORMAL, NORMAL",
    "UNACKNOWLEDGED, UNACKNOWLEDGED", // it came meanwhile, and is there: B
    "ACKNOWLEDGED, UNACKNOWLEDGED", // it stood all the time: B
    "RETURNED_UNACKNOWLEDGED, RETURNED_UNACKNOWLEDGED", // it came and went: not lost
    "LATCHED_UNACKNOWLEDGED, LATCHED_UNACKNOWLEDGED",
    "LATCHED, LATCHED_UNACKNOWLEDGED"
  })
  void aShelfThatEndsAnnouncesWhatIsThere(AlarmState under, AlarmState shown) {
    Map<Cause, Alarms.Entry> entries =
        Map.of(ALARM, new Alarms.Entry(under, 0, new Shelf(600, 600), false, false, false));
    assertEquals(shown, state(Alarms.unshelve(entries, Annunciator.QUIET, ALARM)), "by hand");
    Set<Cause> active =
        under == AlarmState.NORMAL || under == AlarmState.RETURNED_UNACKNOWLEDGED
            ? Set.of()
            : Set.of(ALARM);
    Set<Cause> present =
        under == AlarmState.LATCHED || under == AlarmState.LATCHED_UNACKNOWLEDGED
            ? Set.of()
            : active;
    for (double unixS : new double[] {300, 600}) { // by the wall clock first, else by running time
      double elapsedS = unixS == 300 ? 600 : 1;
      Alarms.Result ended =
          Alarms.step(
              entries,
              Annunciator.QUIET,
              new Alarms.Seen(active, present, Set.of(), 1, elapsedS, unixS, true));
      assertEquals(shown, state(ended), "by itself");
    }
  }

  @ParameterizedTest
  @CsvSource({
    "NORMAL, true, UNACKNOWLEDGED",
    "NORMAL, false, NORMAL",
    "ACKNOWLEDGED, true, ACKNOWLEDGED", // seen before: need not be seen each morning
    "ACKNOWLEDGED, false, NORMAL",
    "UNACKNOWLEDGED, true, UNACKNOWLEDGED",
    "UNACKNOWLEDGED, false, RETURNED_UNACKNOWLEDGED",
    "RETURNED_UNACKNOWLEDGED, false, RETURNED_UNACKNOWLEDGED"
  })
  void whatWasSuppressedGoesOn(AlarmState under, boolean there, AlarmState shown) {
    Cause orp = Cause.ORP_FAILURE;
    Map<Cause, Alarms.Entry> entries =
        Map.of(orp, new Alarms.Entry(under, 0, Shelf.NONE, true, false, false));
    EnumSet<Cause> active = EnumSet.noneOf(Cause.class);
    if (there) {
      active.add(orp);
    }
    Alarms.Result early = Alarms.step(entries, Annunciator.QUIET, seen(active, 59));
    assertEquals(AlarmState.SUPPRESSED, early.entries().get(orp).state(), "a pump that flickers");
    Alarms.Result later = Alarms.step(early.entries(), Annunciator.QUIET, seen(active, 1));
    Alarms.Entry entry = later.entries().get(orp);
    assertEquals(shown, entry == null ? AlarmState.NORMAL : entry.state());
  }

  private static Alarms.Seen seen(Set<Cause> active, double elapsedS) {
    return new Alarms.Seen(active, active, Set.of(), elapsedS, elapsedS, 0, false);
  }

  private static Map<Cause, Alarms.Entry> entries(AlarmState state) {
    Map<Cause, Alarms.Entry> entries = new EnumMap<>(Cause.class);
    entries.put(
        ALARM,
        switch (state) {
          case SHELVED ->
              new Alarms.Entry(
                  AlarmState.ACKNOWLEDGED, 0, new Shelf(1e5, 1e9), false, false, false);
          case SUPPRESSED ->
              new Alarms.Entry(AlarmState.ACKNOWLEDGED, -1e9, Shelf.NONE, true, false, false);
          case OUT_OF_SERVICE ->
              new Alarms.Entry(AlarmState.NORMAL, 0, Shelf.NONE, false, true, false);
          default -> new Alarms.Entry(state, 0);
        });
    return entries;
  }

  private static AlarmState after(
      Map<Cause, Alarms.Entry> entries, Set<Cause> active, Set<Cause> present, boolean out) {
    return state(
        Alarms.step(
            entries,
            Annunciator.QUIET,
            new Alarms.Seen(active, present, out ? Set.of(ALARM) : Set.of(), 60, 60, 0, true)));
  }

  private static AlarmState state(Alarms.Result result) {
    Alarms.Entry entry = result.entries().get(ALARM);
    return entry == null ? AlarmState.NORMAL : entry.state();
  }
}
