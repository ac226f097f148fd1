package limnostat.scan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import limnostat.account.DoseAccount;
import limnostat.account.DoseCaps;
import limnostat.control.Mode;
import limnostat.estimate.Addition;
import limnostat.estimate.Product;
import limnostat.estimate.Tested;
import limnostat.estimate.WaterTest;
import limnostat.measure.Role;
import limnostat.safety.Cause;
import limnostat.scan.Situation.Times;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What people put into a pool of 50 m³, in whole scans. */
class AdditionCommandsTest {
  private static final OptionalDouble NONE = OptionalDouble.empty();
  private static final int HOUR = 360;

  private final Asking pool = new Asking(TestSettings.pool());

  private static Command.Add add(Product product, double amount) {
    return new Command.Add(product, amount, NONE, NONE, NONE);
  }

  private static Command.Add ago(Product product, double amount, double agoS) {
    return new Command.Add(product, amount, NONE, OptionalDouble.of(agoS), NONE);
  }

  private static Command test(double freeChlorineMgL) {
    return new Command.Test(WaterTest.EMPTY.with(Tested.FREE_CHLORINE, freeChlorineMgL));
  }

  private double freeChlorineMgL() {
    pool.pass(1);
    return pool.out.estimate().freeChlorineMgL();
  }

  private List<Addition> kept() {
    return pool.state.asked().additions().kept();
  }

  /** 1 L of 12.5 trade % in 50 m³ are 2.5 mg/L, and 4.1 mg/L of salt. */
  @Test
  void theEstimateMovesAndTheAnswerSaysByHowMuch() {
    pool.ask(test(2));
    double before = freeChlorineMgL();
    assertEquals(
        "accepted: a1, free chlorine +2.5 mg/L, salt +4 mg/L; addition_undo takes it back",
        pool.ask(add(Product.LIQUID_CHLORINE, 1000)));
    assertTrue(
        pool.out.events().stream().anyMatch(e -> e instanceof ScanEvent.AdditionEntered),
        "an event");
    assertEquals(before + 2.5, freeChlorineMgL(), 0.1);
    assertEquals(
        "accepted: a2, free chlorine +6.5 mg/L, salt +5 mg/L, calcium hardness +5 mg/L;"
            + " addition_undo takes it back",
        pool.ask(add(Product.CALCIUM_HYPOCHLORITE, 500)));
    assertEquals(List.of("a1", "a2"), kept().stream().map(Addition::id).toList());
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "TRICHLOR|200|over some five days",
        "MURIATIC_ACID|500|total alkalinity -5 mg/L",
        "WATER_OUT|5000|10.0 % of the water replaced",
        "NON_CHLORINE_OXIDISER|500|no free chlorine; ORP",
        "STABILISER|500|stabiliser +10 mg/L"
      })
  void theAnswerTellsWhatBecameOfIt(Product product, double amount, String told) {
    String answer = pool.ask(add(product, amount));
    assertTrue(answer.startsWith("accepted: a1") && answer.contains(told), answer);
  }

  @Test
  void whatATestHasAlreadyIsSaid() {
    pool.ask(test(3));
    pool.pass(60);
    double before = freeChlorineMgL();
    String answer = pool.ask(ago(Product.DICHLOR, 200, 4 * 3600));
    assertTrue(answer.contains("which the test after it has already"), answer);
    assertEquals(before, freeChlorineMgL(), 0.02);
  }

  /** S3 and S8: an entry uses up no cap and widens none. */
  @Test
  void theAccountOfTheOutputIsNotTouched() {
    Situation without = Situation.chlorineFeeding(Times.USUAL, new DoseCaps(20, 15, 5000, 1));
    Situation with = Situation.chlorineFeeding(Times.USUAL, new DoseCaps(20, 15, 5000, 1));
    with.commands.add(add(Product.CALCIUM_HYPOCHLORITE, 100));
    boolean capped = false;
    for (int i = 0; i < 2 * HOUR; i++) {
      without.scan(1);
      with.scan(1);
      if (i == HOUR) {
        with.commands.add(new Command.UndoAddition("a1"));
      }
      DoseAccount expected = without.out.state().chlorine().account();
      DoseAccount account = with.out.state().chlorine().account();
      assertEquals(expected.given(), account.given());
      assertEquals(expected.requested(), account.requested());
      assertEquals(expected.lastHour(), account.lastHour());
      assertEquals(expected.lastDay(), account.lastDay());
      assertEquals(without.out.outputs(), with.out.outputs(), "a person's duty is what it was");
      assertEquals(without.out.permission().active(), with.out.permission().active());
      capped |= with.out.permission().active().contains(Cause.CHLORINE_HOUR_CAP);
    }
    assertTrue(capped, "at stake");
  }

  /** S4: what a person entered as chlorine never has more of it fed. */
  @Test
  void chlorineByHandRaisesNoDemand() {
    for (Product product : Product.values()) {
      if (product.chlorine()) {
        Situation without = Situation.chlorineFeeding(Times.USUAL, new DoseCaps(2, 1000, 5000, 1));
        Situation with = Situation.chlorineFeeding(Times.USUAL, new DoseCaps(2, 1000, 5000, 1));
        for (Situation s : List.of(without, with)) {
          s.commands.add(new Command.SetMode(Mode.AUTO, NONE));
          s.commands.add(test(2));
          s.scan(2);
        }
        with.commands.add(add(product, 150));
        for (int i = 0; i < HOUR / 2; i++) {
          without.scan(1);
          with.scan(1);
          assertTrue(
              with.out.demand().chlorineDuty() <= without.out.demand().chlorineDuty() + 1e-9,
              product + " at scan " + i);
        }
      }
    }
  }

  /** A gallon too many holds the output as a test would: limit 5 mg/L. */
  @Test
  void chlorineByHandAboveTheLimitHoldsTheOutput() {
    Situation s = Situation.chlorineFeeding(Times.USUAL, new DoseCaps(2, 1000, 5000, 1));
    s.commands.add(test(3));
    s.scan(2);
    assertTrue(s.out.outputs().chlorine() > 0);
    s.commands.add(add(Product.CALCIUM_HYPOCHLORITE, 500));
    s.scan(1);
    assertTrue(s.out.permission().active().contains(Cause.FREE_CHLORINE_HIGH));
    assertEquals(0, s.out.outputs().chlorine());
    s.commands.add(new Command.UndoAddition("a1"));
    s.scan(2);
    assertFalse(s.out.permission().active().contains(Cause.FREE_CHLORINE_HIGH));
  }

  @Test
  void anUndoIsGrantedOnce() {
    pool.ask(test(2));
    double before = freeChlorineMgL();
    pool.ask(add(Product.LIQUID_CHLORINE, 1000));
    assertEquals("accepted", pool.ask(new Command.UndoAddition("a1")));
    assertTrue(pool.out.events().get(0) instanceof ScanEvent.AdditionUndone);
    assertEquals(before, freeChlorineMgL(), 0.1);
    assertEquals("addition a1 was undone before", pool.ask(new Command.UndoAddition("a1")));
    String unknown = pool.ask(new Command.UndoAddition("a7"));
    assertTrue(unknown.startsWith("no addition has the id a7; addition_list"), unknown);
    assertEquals(before, freeChlorineMgL(), 0.1);
  }

  /** QoS 1 delivers at least once. */
  @Test
  void aRepeatIsNotAppliedTwice() throws IOException {
    pool.ask(test(2));
    String document = "{\"type\":\"addition\"}";
    String first = pool.askById("p1", document, add(Product.LIQUID_CHLORINE, 1000));
    assertTrue(first.startsWith("accepted: a1"), first);
    double once = freeChlorineMgL();
    pool.restart();
    assertEquals(
        "again: accepted", pool.askById("p1", document, add(Product.LIQUID_CHLORINE, 1000)));
    assertEquals(1, kept().size());
    assertEquals(once, freeChlorineMgL(), 0.01);
  }

  @Test
  void aListIsAnsweredAndChangesNothing() {
    pool.ask(add(Product.SALT, 1000));
    ScanState before = pool.state;
    assertEquals("accepted", pool.ask(new Command.ListAdditions()));
    ScanEvent.Accepted answer = (ScanEvent.Accepted) pool.out.events().get(0);
    assertEquals(
        List.of("a1"), answer.listed().orElseThrow().kept().stream().map(Addition::id).toList());
    assertEquals(before.estimate().slow().salt(), pool.state.estimate().slow().salt());
    pool.ask(new Command.UndoAddition("a1"));
    assertTrue(((ScanEvent.Accepted) pool.out.events().get(1)).listed().isEmpty());
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "LIQUID_CHLORINE|1000|0.5|strength_percent 0.5 % is below the least of any liquid_chlorine",
        "LIQUID_CHLORINE|1000|25|strength_percent 25 % is above the most of any liquid_chlorine",
        "SALT|1000|50|strength_percent does not go with salt",
        "DICHLOR|0|56|the amount 0 g is below the least of any addition",
        "DICHLOR|NaN|56|the amount NaN is not a number",
        "DICHLOR|Infinity|56|the amount Infinity is not a number",
        "DICHLOR|-5|56|the amount -5 g is below",
        "TRICHLOR|10000|90|would move free chlorine by 180 mg/L in 50.0 m3",
        "STABILISER|20000||would move stabiliser by 400 mg/L",
        "MURIATIC_ACID|50000||would move total alkalinity by -501 mg/L",
        "CALCIUM_CHLORIDE|90000||would move calcium hardness by 1250 mg/L",
        "SALT|3000000||would move salt by 60000 mg/L",
        "WATER_OUT|50001||50001 L are more than the pool of 50.0 m3"
      })
  void whatCannotBeIsRefused(Product product, double amount, Double percent, String reason) {
    ScanState before = pool.state;
    String answer =
        pool.ask(
            new Command.Add(
                product, amount, percent == null ? NONE : OptionalDouble.of(percent), NONE, NONE));
    assertTrue(answer.contains(reason), answer);
    assertEquals(before.asked().additions(), pool.state.asked().additions());
    assertEquals(before.estimate().slow().salt(), pool.state.estimate().slow().salt());
  }

  private String at(double unixS) {
    return pool.ask(new Command.Add(Product.SALT, 1000, NONE, NONE, OptionalDouble.of(unixS)));
  }

  @Test
  void theTimeIsOfTheLastDay() {
    double now = Asking.NOW_UNIX_S;
    assertTrue(at(now - 3600).startsWith("accepted"));
    assertEquals(3600, kept().get(0).ageS());
    assertTrue(at(now + 300).startsWith("accepted"), "a clock a little ahead");
    assertEquals(0, kept().get(1).ageS());
    assertTrue(at(now + 400).contains("at is still to come"));
    assertTrue(at(now - 90_000).contains("more than 24 h back"));
    assertTrue(pool.ask(ago(Product.SALT, 1000, 90_000)).contains("ago_minutes is more than"));
    assertTrue(pool.ask(ago(Product.SALT, 1000, -60)).contains("ago_minutes is below 0"));
    pool.clockTrusted = false;
    assertTrue(at(now - 3600).contains("say ago_minutes instead"));
    assertTrue(pool.ask(ago(Product.SALT, 1000, 60)).startsWith("accepted"));
  }

  private boolean suspected() {
    return pool.out.events().stream().anyMatch(e -> e instanceof ScanEvent.AdditionSuspected);
  }

  private double askedForS() {
    return pool.state.asked().additions().unfed().ageS();
  }

  @Test
  void chlorineThatNobodyFedIsAskedFor() throws IOException {
    pool.ask(test(9));
    assertFalse(suspected(), "the file's guess is no expectation");
    pool.ask(test(2));
    pool.pass(300);
    pool.ask(test(2));
    assertFalse(suspected(), "less than expected is no addition");
    String answer = pool.ask(test(6));
    assertTrue(suspected());
    assertTrue(answer.contains("was something added by hand? enter it"), answer);
    ScanEvent.AdditionSuspected event = (ScanEvent.AdditionSuspected) pool.out.events().get(1);
    assertEquals(6, event.found().readMgL());
    assertEquals(2, event.found().expectedMgL(), 0.4);
    assertTrue(event.text().startsWith("the test reads 6.0 mg/L of free chlorine where what was"));
    assertTrue(pool.state.asked().additions().unfed().standing());
    pool.pass(600);
    assertEquals(601, askedForS(), 2);
    pool.restart();
    pool.pass(1);
    pool.ask(add(Product.SALT, 1000));
    assertTrue(pool.state.asked().additions().unfed().standing(), "salt is no answer");
    pool.ask(ago(Product.LIQUID_CHLORINE, 1000, 3600));
    assertFalse(pool.state.asked().additions().unfed().standing());
  }

  @Test
  void theQuestionEndsByItself() {
    pool.ask(test(2));
    pool.ask(test(2));
    pool.ask(test(6));
    for (int hour = 0; hour < 71; hour++) {
      pool.pass(3600);
    }
    assertTrue(pool.state.asked().additions().unfed().standing());
    pool.pass(7200);
    assertFalse(pool.state.asked().additions().unfed().standing());
  }

  /** What was entered is expected. */
  @Test
  void chlorineThatWasEnteredIsNotAskedFor() {
    pool.ask(test(2));
    pool.ask(test(2));
    pool.ask(add(Product.LIQUID_CHLORINE, 1600));
    String answer = pool.ask(test(6));
    assertFalse(suspected(), answer);
  }

  /** Time passes over an outage too, and ids go on. */
  @Test
  void itOutlastsARestart() throws IOException {
    pool.ask(add(Product.TRICHLOR, 500));
    pool.restart();
    pool.pass(2 * 86_400);
    assertEquals(0.4, kept().get(0).broughtShare(), 0.01);
    pool.ask(add(Product.SALT, 1000));
    assertEquals("a2", kept().get(1).id());
  }

  /** Where acid is fed by pH: an hour until the probes are settled, then acid by hand. */
  private Situation settled() {
    Situation s = Situation.chlorineFeeding(Times.USUAL, new DoseCaps(2, 1000, 5000, 1));
    s.swingMv = 20;
    s.scan(HOUR + 60);
    return s;
  }

  private static boolean unexplained(Situation s) {
    return s.out.permission().active().contains(Cause.PH_UNEXPLAINED);
  }

  @Test
  void acidByHandIsNoFaultOfTheElectrode() {
    for (boolean entered : new boolean[] {false, true}) {
      Situation s = settled();
      if (entered) {
        s.commands.add(add(Product.MURIATIC_ACID, 1000));
        s.scan(HOUR / 2);
      }
      s.ph(6.95);
      s.scan(HOUR);
      assertEquals(!entered, unexplained(s), "entered: " + entered);
    }
  }

  @Test
  void sodaAshByHandIsNoFaultOfTheElectrode() {
    for (boolean entered : new boolean[] {false, true}) {
      Situation s = settled();
      if (entered) {
        s.commands.add(add(Product.SODA_ASH, 1500));
        s.scan(HOUR / 2);
      }
      s.ph(7.95);
      s.scan(HOUR);
      assertEquals(!entered, unexplained(s), "entered: " + entered);
    }
  }

  /** Not to the other side, not farther, and not for longer than it takes to mix. */
  @Test
  void anAdditionExplainsNoMoreThanItDoes() {
    Situation s = settled();
    s.commands.add(add(Product.MURIATIC_ACID, 1000));
    s.scan(HOUR / 2);
    s.ph(7.95);
    s.scan(HOUR);
    assertTrue(unexplained(s), "acid lifts nothing");
    s = settled();
    s.commands.add(add(Product.SODA_ASH, 100));
    s.scan(HOUR / 2);
    s.ph(7.95);
    s.scan(HOUR);
    assertTrue(unexplained(s), "so little does not lift it by 0.5");
    s = settled();
    s.commands.add(add(Product.SODA_ASH, 1500));
    s.scan(7 * HOUR);
    s.ph(8.05);
    s.scan(HOUR);
    assertTrue(unexplained(s), "it has mixed long ago");
  }

  /** Entered after the doubt: it is explained, and acid goes on being fed. */
  @Test
  void anAdditionThatIsEnteredLateExplainsADoubt() {
    Situation s = settled();
    s.ph(7.95);
    s.scan(HOUR);
    assertTrue(unexplained(s));
    s.commands.add(ago(Product.MURIATIC_ACID, 1000, 7200));
    s.scan(2);
    assertTrue(unexplained(s), "acid does not lift");
    s.commands.add(ago(Product.SODA_ASH, 1500, 7200));
    s.scan(2);
    assertFalse(unexplained(s));
    s.scan(3 * HOUR);
    assertFalse(unexplained(s));
  }

  @Test
  void coldFillWaterIsNoFaultOfTheThermometer() {
    for (boolean entered : new boolean[] {false, true}) {
      Situation s = settled();
      if (entered) {
        s.commands.add(add(Product.FRESH_WATER, 20_000));
        s.scan(2);
      }
      s.analog(Role.WATER_C, 20);
      s.scan(HOUR);
      assertEquals(
          !entered,
          s.out.permission().active().contains(Cause.WATER_DISAGREES),
          "entered: " + entered);
    }
  }

  /** Of acid that is fed while a base mixes nothing is expected. */
  @Test
  void whileABaseMixesNoFallIsExpected() {
    ScanSettings settings = TestSettings.pool();
    Situation s = Situation.acidFeeding(Times.USUAL, settings.acid().caps());
    assertTrue(PoolMoves.expectedFallPh(settings, s.out.state(), 10) > 0);
    s.commands.add(add(Product.SODA_ASH, 500));
    s.scan(1);
    assertTrue(PoolMoves.acidFallPh(settings, s.out.state(), 10) > 0);
    assertEquals(0, PoolMoves.expectedFallPh(settings, s.out.state(), 10));
    s.commands.add(new Command.UndoAddition("a1"));
    s.scan(1);
    assertTrue(PoolMoves.expectedFallPh(settings, s.out.state(), 10) > 0);
  }

  @Test
  void whatTheInstallerDoesNotAllowIsRefused() {
    pool.settings = TestSettings.pool().with(new NetworkRules(Set.of(Permit.MODE), 60));
    for (Command command :
        List.of(
            add(Product.SALT, 1000), new Command.UndoAddition("a1"), new Command.ListAdditions())) {
      assertEquals("the installer's mqtt.allow does not have \"addition\"", pool.ask(command));
    }
    String board =
        pool.ask(
            new Command.Request(
                Optional.empty(),
                "addition",
                Command.Request.BOARD,
                "{}",
                add(Product.SALT, 1000)));
    assertTrue(board.startsWith("accepted"), board);
  }
}
