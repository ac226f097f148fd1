package limnostat.daemon;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import limnostat.account.DoseAccount;
import limnostat.account.DoseCaps;
import limnostat.actuate.Output;
import limnostat.control.Mode;
import limnostat.ledger.Moment;
import limnostat.ledger.Restored;
import limnostat.measure.Signals;
import limnostat.safety.Cause;
import limnostat.scan.OutputState;
import limnostat.scan.Scan;
import limnostat.scan.ScanInputs;
import limnostat.scan.ScanOutcome;
import limnostat.scan.ScanSettings;
import limnostat.scan.ScanState;
import limnostat.scan.TestSettings;
import limnostat.wire.SavedState;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class ResumeTest {
  private static final ScanSettings SETTINGS = TestSettings.pool();
  private static final BootClock BOOT = ofBoot("this");
  private static final Moment SAVED = new Moment(1000, 1.7e9, true, "this");

  /** 300 s after what was saved. */
  private static BootClock ofBoot(String id) {
    Clock.Simulated clock = new Clock.Simulated(1.7e9);
    clock.advance(1300);
    return new BootClock(id, 5000, clock);
  }

  private static Resume resume(Optional<byte[]> state, Optional<Path> damaged, boolean fresh) {
    return resume(state, damaged.map(path -> "it was damaged"), damaged, fresh, true, BOOT);
  }

  private static Resume resume(
      Optional<byte[]> state,
      Optional<String> doubt,
      Optional<Path> setAside,
      boolean fresh,
      boolean machineKnown,
      BootClock boot) {
    return Resume.from(
        new Restored(
            state.map(json -> new Restored.SavedState(json, SAVED)),
            Map.of(),
            doubt,
            setAside,
            fresh,
            machineKnown,
            1),
        SETTINGS,
        boot);
  }

  /** The first scan after it, with what the ledger has booked. */
  private static ScanOutcome first(Resume resume, double bookedG) {
    return Scan.step(
        SETTINGS,
        resume.state(),
        new ScanInputs(
            resume.outageS(),
            1.7e9,
            true,
            Signals.of(Map.of()),
            Map.of(Output.CHLORINE, bookedG),
            false,
            true,
            List.of()));
  }

  private static boolean capsUsedUp(ScanState state) {
    DoseCaps chlorine = SETTINGS.chlorine().caps();
    DoseCaps acid = SETTINGS.acid().caps();
    return state.chlorine().account().hourReached(chlorine)
        && state.chlorine().account().dayReached(chlorine)
        && state.acid().account().hourReached(acid)
        && state.acid().account().dayReached(acid);
  }

  @Test
  void aNewLedgerBeginsAtTheBeginning() {
    Resume resume = resume(Optional.empty(), Optional.empty(), true);
    assertFalse(capsUsedUp(resume.state()));
    assertEquals(0, resume.outageS());
    assertTrue(resume.note().startsWith("new ledger"));
    assertEquals(ScanState.Phase.RESUMED, resume.state().phase());
  }

  /** Killed before a state was saved: what was booked may all have been given just now. */
  @Test
  void withoutASavedStateTheBookingsCountAsGiven() {
    Resume resume = resume(Optional.empty(), Optional.empty(), false);
    assertEquals(9, first(resume, 9).state().chlorine().account().lastHour());
    assertTrue(resume.note().contains("counts as given"));
  }

  @Test
  void aDamagedLedgerUsesUpTheCaps() {
    Resume resume = resume(Optional.empty(), Optional.of(Path.of("x.damaged-1")), false);
    assertTrue(capsUsedUp(resume.state()));
    assertTrue(capsUsedUp(first(resume, 0).state()));
    assertTrue(resume.note().contains("x.damaged-1"));
    assertEquals(0, resume.outageS());
  }

  /** What it knows of the water, of latches and of people's choices is worth more than nothing. */
  @Test
  void aLedgerThatIsNotBelievedUsesUpTheCapsAndKeepsWhatItKnows() {
    ScanState start = ScanState.start(SETTINGS);
    ScanState saved =
        new ScanState(
            ScanState.Phase.RUNNING,
            start.measure(),
            start.estimate(),
            start.control().withMode(Mode.OFF, 0),
            start.safety(),
            start.chlorine(),
            start.acid(),
            start.alarms(),
            start.sun(),
            start.annunciator(),
            start.totals());
    Resume resume =
        resume(
            Optional.of(SavedState.write(saved)),
            Optional.of("it is older than its record"),
            Optional.of(Path.of("x.damaged-2")),
            false,
            true,
            BOOT);
    assertTrue(capsUsedUp(first(resume, 0).state()));
    assertEquals(Mode.OFF, resume.state().control().mode());
    assertEquals(0, resume.outageS(), "whose time is not known");
    assertTrue(
        resume.note().contains("it is older than its record")
            && resume.note().contains("x.damaged-2"),
        resume.note());
    assertTrue(first(resume, 0).permission().active().contains(Cause.ACCOUNT_UNKNOWN));
  }

  /** The time since a boot proves an outage only of a ledger of this machine. */
  @Test
  void anotherBootProvesNothingOfALedgerThatMayBeAnotherMachines() {
    Optional<byte[]> state = Optional.of(SavedState.write(ScanState.start(SETTINGS)));
    Optional<Path> none = Optional.empty();
    BootClock later = ofBoot("later");
    assertEquals(5000, resume(state, Optional.empty(), none, false, true, later).outageS());
    assertEquals(0, resume(state, Optional.empty(), none, false, false, later).outageS());
    assertEquals(300, resume(state, Optional.empty(), none, false, false, BOOT).outageS());
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "null", "{}", "[]", "no JSON", "{\"phase\":null}"})
  void anUnreadableStateUsesUpTheCaps(String json) {
    Resume resume =
        resume(Optional.of(json.getBytes(StandardCharsets.UTF_8)), Optional.empty(), false);
    assertTrue(capsUsedUp(resume.state()));
    assertTrue(resume.note().contains("cannot be read"), resume.note());
    assertEquals(1, resume.note().lines().count());
    assertEquals(0, resume.outageS());
  }

  private static byte[] without(ScanState state, String from, String field) throws IOException {
    JsonMapper plain = new JsonMapper();
    JsonNode document = plain.readTree(SavedState.write(state));
    ((ObjectNode) document.at(from)).remove(field);
    return plain.writeValueAsBytes(document);
  }

  @Test
  void aStateOfAnOlderVersionIsTakenUp() throws IOException {
    ScanState start = ScanState.start(SETTINGS);
    byte[] older = without(start, "/control", "capacity");
    Resume resume = resume(Optional.of(older), Optional.empty(), false);
    assertFalse(capsUsedUp(resume.state()));
    assertEquals(300, resume.outageS());
    assertTrue(
        resume.note().contains("another version")
            && resume.note().endsWith("lost of it: nothing; resumed after 300 s that are proved"),
        resume.note());
    assertEquals(1, resume.note().lines().count());
  }

  @Test
  void anAccountThatIsNotWholeUsesUpTheCaps() throws IOException {
    byte[] older = without(ScanState.start(SETTINGS), "/acid/account", "given");
    Resume resume = resume(Optional.of(older), Optional.empty(), false);
    assertTrue(capsUsedUp(resume.state()));
    assertTrue(capsUsedUp(first(resume, 0).state()));
    assertEquals(0, resume.outageS());
    assertTrue(
        resume.note().contains("lost of it: acid; the caps count as used up"), resume.note());
  }

  @Test
  void aSavedStateIsTakenUpWithTheOutageThatIsProved() {
    ScanState start = ScanState.start(SETTINGS);
    ScanState saved =
        new ScanState(
            ScanState.Phase.RUNNING,
            start.measure(),
            start.estimate(),
            start.control().withMode(Mode.MANUAL, 0.3).withTarget(4),
            start.safety(),
            start.chlorine(),
            start.acid(),
            start.alarms(),
            start.sun(),
            start.annunciator(),
            start.totals());
    Resume resume = resume(Optional.of(SavedState.write(saved)), Optional.empty(), false);
    assertEquals(300, resume.outageS());
    assertEquals(ScanState.Phase.RESUMED, resume.state().phase());
    assertEquals(saved.control(), resume.state().control());
    assertEquals(0, first(resume, 0).outputs().chlorine());
    assertTrue(resume.note().contains("300 s"));
  }

  @Test
  void aConfigurationThatWasChangedIsToldWithWhatChanged() {
    Map<String, String> before = Map.of("limits.orp_high", "800 mV", "pool.volume", "50 m3");
    Map<String, String> after = Map.of("limits.orp_high", "850 mV", "pool.volume", "50 m3");
    Resume first = resume(Optional.empty(), Optional.empty(), true).configuredBy(before);
    assertFalse(first.note().contains("changed"), "the first is no change");
    byte[] saved = SavedState.write(first.state());
    Resume same = resume(Optional.of(saved), Optional.empty(), false).configuredBy(before);
    assertFalse(same.note().contains("changed"));
    assertFalse(first(same, 0).permission().active().contains(Cause.CONFIGURATION_CHANGED));
    Resume other = resume(Optional.of(saved), Optional.empty(), false).configuredBy(after);
    assertTrue(
        other.note().endsWith("; configuration changed: limits.orp_high from 800 mV to 850 mV"),
        other.note());
    assertTrue(first(other, 0).permission().active().contains(Cause.CONFIGURATION_CHANGED));
  }

  /** Of 5 g that were booked 2 g were given when the process before was asked to stop. */
  @Test
  void afterAnOrderlyStopOnlyWhatWasGivenCounts() {
    ScanState start = ScanState.start(SETTINGS);
    DoseAccount account = new DoseAccount(2, 5, new double[1440], 2, 0, 0, 0);
    ScanState stopped =
        new ScanState(
            ScanState.Phase.STOPPED,
            start.measure(),
            start.estimate(),
            start.control(),
            start.safety(),
            new OutputState(start.chlorine().modulator(), account),
            start.acid(),
            start.alarms(),
            start.sun(),
            start.annunciator(),
            start.totals());
    Resume resume = resume(Optional.of(SavedState.write(stopped)), Optional.empty(), false);
    ScanState first = first(resume, 5).state();
    assertEquals(2, first.chlorine().account().lastHour());
    // And a crash of that process counts the block after all.
    Resume crashed = resume(Optional.of(SavedState.write(first)), Optional.empty(), false);
    assertEquals(5, first(crashed, 5).state().chlorine().account().lastHour());
  }

  /** Booked 5 g ahead of what is known to be given: after the outage they count as given now. */
  @Test
  void whatWasBookedAndNotProvedCountsAsGivenAfterTheOutage() {
    Resume resume =
        resume(Optional.of(SavedState.write(ScanState.start(SETTINGS))), Optional.empty(), false);
    assertEquals(5, first(resume, 5).state().chlorine().account().lastHour());
  }
}
