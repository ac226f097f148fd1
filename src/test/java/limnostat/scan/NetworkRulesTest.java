package limnostat.scan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import limnostat.control.Mode;
import limnostat.estimate.Tested;
import limnostat.estimate.WaterTest;
import limnostat.measure.Role;
import org.junit.jupiter.api.Test;

/** What the network may, how old it may be, and what comes twice. */
class NetworkRulesTest {
  private static final OptionalDouble NONE = OptionalDouble.empty();

  private final Asking pool = new Asking(TestSettings.pool());

  private static Command mode(Mode mode) {
    return new Command.SetMode(mode, NONE);
  }

  private void allow(Set<Permit> permits) {
    pool.settings = TestSettings.pool().with(new NetworkRules(permits, 60));
  }

  /** Those that change what is fed, or who decides it, are off until the installer allows them. */
  @Test
  void asShippedNothingIsTakenThatRaisesChlorine() {
    allow(Permit.USUAL);
    Map<Command, String> kept =
        Map.of(
            mode(Mode.AUTO),
            "mode",
            mode(Mode.MANUAL),
            "mode",
            new Command.SetTarget(4),
            "target",
            new Command.Superchlorinate(8, 3600),
            "superchlorinate",
            new Command.Reset("orp_high"),
            "reset",
            new Command.FunctionCheck(600),
            "function_check",
            new Command.CalibratePh(7, 25),
            "calibrate",
            new Command.CalibrateOrp(470),
            "calibrate",
            new Command.CalibrateUndo(Role.PH_MV),
            "calibrate");
    ScanState before = pool.state;
    kept.forEach(
        (command, name) ->
            assertEquals(
                "the installer's mqtt.allow does not have \"" + name + '"', pool.ask(command)));
    assertEquals(before.control().targetMgL(), pool.state.control().targetMgL());
    assertEquals(Mode.AUTO, pool.state.control().mode());
    assertEquals("accepted", pool.ask(mode(Mode.OFF)));
    assertEquals(Mode.OFF, pool.state.control().mode());
    WaterTest test = WaterTest.EMPTY.with(Tested.FREE_CHLORINE, 2.5);
    assertTrue(pool.ask(new Command.Test(test)).startsWith("accepted"));
    assertEquals("accepted", pool.ask(new Command.Shelve("tank_low", 600)));
    assertEquals("accepted", pool.ask(new Command.ListAdditions()));
  }

  @Test
  void whereNothingIsAllowedEvenOffIsRefusedAndTheBoardIsNot() {
    allow(Set.of());
    assertEquals(
        "the installer's mqtt.allow does not have \"off\" or \"mode\"", pool.ask(mode(Mode.OFF)));
    assertEquals(
        "accepted",
        pool.ask(
            new Command.Request(
                Optional.empty(), "mode", Command.Request.BOARD, "{}", mode(Mode.OFF))));
  }

  @Test
  void modeAllowsOffAsWell() {
    allow(Set.of(Permit.MODE));
    assertEquals("accepted", pool.ask(mode(Mode.OFF)));
    assertEquals("accepted", pool.ask(mode(Mode.AUTO)));
  }

  /** Whatever the installer allows: it is for a person at the machine. */
  @Test
  void theSeasonIsNeverResetOverANetwork() {
    assertTrue(pool.ask(new Command.ResetSeason()).contains("at the board"));
  }

  @Test
  void anOldCommandIsStaleAndSoIsOneFromTheFuture() {
    allow(Set.of(Permit.TARGET));
    double now = Asking.NOW_UNIX_S;
    assertEquals("accepted", pool.askedAt(now - 60, new Command.SetTarget(2.5)));
    assertEquals("accepted", pool.askedAt(now + 60, new Command.SetTarget(2.5)));
    assertEquals(
        "it is stale: its time is 61 s old, and mqtt.command_age is 60 s; send it again, and look"
            + " at the sender's clock and zone",
        pool.askedAt(now - 61, new Command.SetTarget(4)));
    assertTrue(
        pool.askedAt(now + 7200, new Command.SetTarget(4)).contains("7200 s ahead"),
        "a clock that is skewed by its zone");
    assertEquals(2.5, pool.state.control().targetMgL());
    pool.clockTrusted = false;
    assertEquals(
        "accepted",
        pool.askedAt(now - 7200, new Command.SetTarget(4)),
        "with no clock to hold it against");
  }

  @Test
  void whatComesTwiceIsAppliedOnceAndAnsweredAlike() throws IOException {
    String raise = "{\"raise\"}";
    assertEquals("accepted", pool.askById("a", raise, new Command.SetTarget(4)));
    assertEquals("accepted", pool.askById("b", "{\"back\"}", new Command.SetTarget(3)));
    assertEquals("again: accepted", pool.askById("a", raise, new Command.SetTarget(4)));
    assertEquals(3, pool.state.control().targetMgL(), "not applied again");
    assertEquals(1, pool.out.events().size(), "the answer alone: " + pool.out.events());
    String refusal = pool.askById("c", "{}", new Command.SetTarget(100));
    assertEquals("again: " + refusal, pool.askById("c", "{}", new Command.SetTarget(100)));
    pool.restart();
    assertEquals("again: accepted", pool.askById("a", raise, new Command.SetTarget(4)));
    pool.pass(Answers.KEPT_S);
    assertEquals("accepted", pool.askById("a", raise, new Command.SetTarget(4)), "after that time");
  }

  /** A retained one, told at each connection, must not make the live one's repeat a new one. */
  @Test
  void whatIsNotReadIsNeitherARepeatNorForgetsOne() {
    String raise = "{raise}";
    assertEquals("accepted", pool.askById("a", raise, new Command.SetTarget(4)));
    assertEquals("retained", pool.askById("a", "", new Command.Unreadable("retained")));
    assertEquals("too long", pool.askById("a", "", new Command.Unreadable("too long")));
    assertEquals("again: accepted", pool.askById("a", raise, new Command.SetTarget(4)));
  }

  /** A dashboard that gives everything the same id must not be told that off was taken. */
  @Test
  void anIdThatIsUsedForSomethingElseIsAnotherCommand() {
    assertEquals("accepted", pool.askById("x", "{off}", mode(Mode.OFF)));
    assertEquals("accepted", pool.askById("x", "{auto}", mode(Mode.AUTO)));
    assertEquals("accepted", pool.askById("x", "{off}", mode(Mode.OFF)));
    assertEquals(Mode.OFF, pool.state.control().mode());
  }

  @Test
  void withoutAnIdWhatRaisesNothingIsACommandEachTime() {
    for (int i = 0; i < 2; i++) {
      assertEquals("accepted", pool.askByDocument("{off}", mode(Mode.OFF)));
      assertEquals("accepted", pool.ask(mode(Mode.AUTO)));
    }
    assertEquals("accepted", pool.askByDocument("{off}", mode(Mode.OFF)));
    assertEquals(Mode.OFF, pool.state.control().mode(), "stopping works each time");
  }

  /** A hub's or Homie's, delivered twice. */
  @Test
  void withoutAnIdWhatMayRaiseChlorineIsAppliedOnce() throws IOException {
    String raise = "{raise}";
    assertEquals("accepted", pool.askByDocument(raise, new Command.SetTarget(4)));
    assertEquals("again: accepted", pool.askByDocument(raise, new Command.SetTarget(4)));
    assertEquals("accepted", pool.askByDocument("{back}", new Command.SetTarget(3)));
    String refusal = pool.askByDocument(raise, new Command.SetTarget(4));
    String refused = "the very same came ";
    assertTrue(refusal.startsWith(refused), refusal);
    assertTrue(refusal.contains("request_id"), refusal);
    assertEquals(3, pool.state.control().targetMgL(), "not applied again");
    pool.restart();
    String afterRestart = pool.askByDocument(raise, new Command.SetTarget(4));
    assertTrue(afterRestart.startsWith(refused), afterRestart);
    assertEquals("accepted", pool.askById("own", raise, new Command.SetTarget(4)), "a new wish");
    pool.pass(Answers.KEPT_S);
    assertEquals(
        "accepted", pool.askByDocument(raise, new Command.SetTarget(4)), "after that time");
  }

  /** A low test told twice would bear itself out, and be fed by. */
  @Test
  void aRepeatedTestDoesNotBearItselfOut() {
    WaterTest low = WaterTest.EMPTY.with(Tested.FREE_CHLORINE, 0.1);
    String first = pool.askByDocument("{low}", new Command.Test(low));
    assertTrue(first.startsWith("accepted"), first);
    pool.pass(310);
    assertEquals("again: accepted", pool.askByDocument("{low}", new Command.Test(low)));
  }

  @Test
  void aSecondSuperchlorinationHasToBeMeant() {
    Command begin = new Command.Superchlorinate(8, 3600);
    assertEquals("accepted", pool.askByDocument("{shock}", begin));
    assertEquals("accepted", pool.askByDocument("{stop}", new Command.Superchlorinate(0, 3600)));
    assertTrue(pool.askByDocument("{shock}", begin).contains("the very same"));
    assertTrue(!pool.state.control().superchlorination().running());
  }

  /** Of a person at the machine each is meant; its requests carry ids of their own anyway. */
  @Test
  void theBoardIsNoNetwork() {
    for (int i = 0; i < 2; i++) {
      assertEquals(
          "accepted",
          pool.ask(
              new Command.Request(
                  Optional.empty(),
                  "target",
                  Command.Request.BOARD,
                  "{raise}",
                  new Command.SetTarget(4))));
      assertEquals("accepted", pool.ask(new Command.SetTarget(3)));
    }
  }

  /** Or a chatterbox could have the repeat of a raise taken for a new one. */
  @Test
  void whatWasRefusedMakesPlaceFirst() {
    assertEquals("accepted", pool.askById("a", "{raise}", new Command.SetTarget(4)));
    for (int i = 0; i < 3 * Answers.MOST; i++) {
      pool.askById("n" + i, "{}", new Command.SetTarget(100));
    }
    assertEquals("again: accepted", pool.askById("a", "{raise}", new Command.SetTarget(4)));
  }

  @Test
  void memoryIsBounded() {
    for (int i = 0; i <= Answers.MOST; i++) {
      pool.askById("n" + i, "{}", new Command.SetTarget(4));
    }
    assertEquals(Answers.MOST, pool.state.asked().answers().kept().size());
    assertEquals("again: accepted", pool.askById("n1", "{}", new Command.SetTarget(4)));
    assertEquals("accepted", pool.askById("n0", "{}", new Command.SetTarget(4)), "the oldest");
  }

  @Test
  void everyPermitHasItsOwnName() {
    for (Permit permit : Permit.values()) {
      assertEquals(Optional.of(permit), Permit.ofKey(permit.key()));
    }
    assertEquals(Optional.empty(), Permit.ofKey("season_reset"));
    assertEquals(Set.of(), new Command.ResetSeason().permits());
  }
}
