package limnostat.scan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import limnostat.account.DoseCaps;
import limnostat.actuate.Output;
import limnostat.control.Mode;
import limnostat.estimate.Tested;
import limnostat.estimate.WaterTest;
import limnostat.measure.Role;
import limnostat.safety.Cause;
import limnostat.safety.Effect;
import limnostat.scan.Situation.Times;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * The matrix, row by row, in whole scans: an output feeds, the cause comes, and it alone takes the
 * output away; the cause goes, and the output is free again. A row that is deleted, or has lost its
 * effect, fails here.
 */
class CauseTest {
  private static final DoseCaps CHLORINE = TestSettings.pool().chlorine().caps();
  private static final DoseCaps ACID = TestSettings.pool().acid().caps();

  /**
   * @param held the effect that only this cause has
   * @param from how the situation begins
   * @param comes what puts it wrong
   * @param scans for how long until it counts
   * @param goes what puts it right
   */
  private record Row(
      Cause cause,
      Output output,
      Effect held,
      Beginning from,
      Consumer<Situation> comes,
      int scans,
      Consumer<Situation> goes) {
    @Override
    public String toString() {
      return cause + " on " + output;
    }
  }

  private interface Beginning {
    Situation make();
  }

  private static final Beginning CHLORINE_ON =
      () -> Situation.chlorineFeeding(Times.USUAL, CHLORINE);

  /** 2.2 mg/L a day, with caps that are far off. */
  private static final Beginning LONG_ON =
      () -> Situation.chlorineFeeding(Times.USUAL, new DoseCaps(5, 1000, 5000, 1));

  private static final Beginning ACID_ON = () -> Situation.acidFeeding(Times.USUAL, ACID);

  static Stream<Row> rows() {
    return Stream.of(
            // With no proving time the gap is all that holds.
            row(
                Cause.INTERRUPTED,
                () -> Situation.chlorineFeeding(new Times(0, 0, 0), CHLORINE),
                Effect.INHIBIT,
                () -> Situation.acidFeeding(new Times(0, 0, 0), ACID),
                Effect.INHIBIT,
                s -> s.elapsedS = 61,
                1,
                CauseTest::nothing),
            row(
                Cause.RESTART_LOOP,
                () -> Situation.chlorineFeeding(new Times(0, 0, 0), CHLORINE),
                Effect.INHIBIT,
                () -> Situation.acidFeeding(new Times(0, 0, 0), new DoseCaps(1500, 3000, 3000, 50)),
                Effect.INHIBIT,
                CauseTest::diesFiveTimes,
                2,
                CauseTest::nothing),
            row(
                Cause.RESTART_LOOP,
                () -> Situation.chlorineFeeding(new Times(0, 0, 0), CHLORINE),
                Effect.INHIBIT,
                () -> Situation.acidFeeding(new Times(0, 0, 0), new DoseCaps(1500, 3000, 3000, 50)),
                Effect.INHIBIT,
                CauseTest::diesFiveTimes,
                2,
                s -> s.commands.add(new Command.Reset(Cause.RESTART_LOOP.id()))),
            none(Cause.SCAN_OVERRUN, s -> s.overran = true, 12, s -> s.overran = false),
            none(Cause.ACCOUNT_UNKNOWN, Situation::losesTheLedger, 1, CauseTest::nothing),
            both(
                Cause.NO_FLOW,
                s -> s.contact(Role.FLOW, false),
                1,
                s -> s.contact(Role.FLOW, true)),
            row(
                Cause.FLOW_NOT_PROVEN,
                () -> Situation.chlorineFeeding(new Times(60, 0, 300), CHLORINE),
                Effect.INHIBIT,
                () -> Situation.acidFeeding(new Times(60, 0, 300), ACID),
                Effect.INHIBIT,
                CauseTest::flowBlinks,
                5,
                CauseTest::nothing),
            row(
                Cause.STANDING_WATER,
                () -> Situation.chlorineFeeding(new Times(0, 60, 300), CHLORINE),
                Effect.INHIBIT,
                () -> Situation.acidFeeding(new Times(0, 60, 300), ACID),
                Effect.INHIBIT,
                CauseTest::flowBlinks,
                5,
                CauseTest::nothing),
            List.of(
                new Row(
                    Cause.FLOW_UNASKED,
                    Output.CHLORINE,
                    Effect.INHIBIT,
                    Situation::chlorineFeedingUntilThePumpRests,
                    CauseTest::nothing,
                    600,
                    CauseTest::flowBlinks)),
            row(
                Cause.FUNCTION_CHECK,
                () -> Situation.chlorineFeeding(new Times(0, 0, 0), CHLORINE),
                Effect.INHIBIT,
                () -> Situation.acidFeeding(new Times(0, 0, 0), ACID),
                Effect.INHIBIT,
                s -> s.commands.add(new Command.FunctionCheck(3600)),
                1,
                s -> s.commands.add(new Command.FunctionCheck(0))),
            row(
                Cause.COVER_CLOSED,
                CHLORINE_ON,
                Effect.LIMIT,
                ACID_ON,
                Effect.NONE,
                s -> s.contact(Role.COVER_CLOSED, true),
                1,
                s -> s.contact(Role.COVER_CLOSED, false)),
            both(
                Cause.FLOW_STUCK, CauseTest::flowStaysThoughThePumpRests, 1, CauseTest::flowBlinks),
            both(
                Cause.PUMP_OFF,
                s -> s.contact(Role.PUMP_ON, false),
                1,
                s -> s.contact(Role.PUMP_ON, true)),
            row(
                Cause.MODE_OFF,
                CHLORINE_ON,
                Effect.INHIBIT,
                ACID_ON,
                Effect.INHIBIT,
                s -> s.commands.add(new Command.SetMode(Mode.OFF, OptionalDouble.empty())),
                1,
                CauseTest::byHand),
            row(
                Cause.ORP_FAILURE,
                CHLORINE_ON,
                Effect.LIMIT,
                ACID_ON,
                Effect.NONE,
                s -> s.missing(Role.ORP_MV),
                8,
                s -> s.analog(Role.ORP_MV, 650)),
            row(
                Cause.PH_FAILURE,
                CHLORINE_ON,
                Effect.LIMIT,
                ACID_ON,
                Effect.INHIBIT,
                s -> s.missing(Role.PH_MV),
                8,
                s -> s.ph(7.4)),
            row(
                Cause.WATER_FAILURE,
                CHLORINE_ON,
                Effect.LIMIT,
                ACID_ON,
                Effect.NONE,
                s -> s.missing(Role.WATER_C),
                8,
                s -> s.analog(Role.WATER_C, 25)),
            row(
                Cause.PH_DISAGREES,
                CHLORINE_ON,
                Effect.NONE,
                ACID_ON,
                Effect.INHIBIT,
                s -> twoTestsOfPh(s, 8.4),
                1,
                s -> testedPh(s, 7.6)),
            List.of(
                new Row(
                    Cause.WATER_DISAGREES,
                    Output.CHLORINE,
                    Effect.LIMIT,
                    LONG_ON,
                    s -> {
                      s.scan(400);
                      s.analog(Role.WATER_C, 33);
                    },
                    200,
                    s -> s.analog(Role.WATER_C, 25))),
            acid(
                Cause.PH_UNEXPLAINED,
                Situation::acidFeedingAfterAJump,
                CauseTest::nothing,
                50,
                s -> testedPh(s, 7.9)),
            none(
                Cause.CALIBRATION_DUE,
                s -> s.unixTimeS += 91 * 86_400,
                1,
                s -> s.unixTimeS -= 91 * 86_400),
            // With no budget at all it is spent as soon as it is needed.
            chlorine(
                Cause.BLIND_FEED_SPENT,
                () -> Situation.chlorineFeeding(new Times(60, 60, 300, 0), CHLORINE),
                s -> s.missing(Role.ORP_MV),
                12,
                s -> s.analog(Role.ORP_MV, 650)),
            List.of(
                new Row(
                    Cause.ORP_FALLING,
                    Output.CHLORINE,
                    Effect.LIMIT,
                    LONG_ON,
                    s -> {
                      s.scan(400);
                      s.fallsMvH = 0.7;
                    },
                    30_000,
                    s -> {
                      s.fallsMvH = 0;
                      tested(s, 2);
                    })),
            chlorine(
                Cause.NO_RESPONSE,
                LONG_ON,
                CauseTest::nothing,
                16_500,
                s -> resets(s, Cause.NO_RESPONSE)),
            chlorineOnly(
                Cause.WATER_COLD,
                s -> s.analog(Role.WATER_C, 8),
                40,
                s -> s.analog(Role.WATER_C, 25)),
            both(
                Cause.WATER_HOT,
                s -> s.analog(Role.WATER_C, 42),
                40,
                s -> s.analog(Role.WATER_C, 25)),
            both(Cause.PH_LOW, s -> s.ph(6.6), 8, s -> s.ph(7.4)),
            chlorineOnly(Cause.PH_HIGH, s -> s.ph(8.1), 8, s -> s.ph(7.4)),
            chlorineOnly(
                Cause.ORP_HIGH,
                s -> s.analog(Role.ORP_MV, 830),
                8,
                s -> s.analog(Role.ORP_MV, 700)),
            chlorineOnly(Cause.FREE_CHLORINE_HIGH, s -> tested(s, 7), 1, CauseTest::testedTwiceLow),
            // Known to be 2 mg/L: a test of 9 is doubted, and high all the same.
            chlorineOnly(
                Cause.FREE_CHLORINE_HIGH,
                s -> {
                  tested(s, 2);
                  tested(s, 9);
                },
                1,
                s -> tested(s, 2)),
            chlorine(
                Cause.CHLORINE_HOUR_CAP,
                () -> Situation.chlorineFeeding(Times.USUAL, new DoseCaps(20, 6, 150, 1)),
                CauseTest::nothing,
                200,
                CauseTest::nothing),
            chlorine(
                Cause.CHLORINE_DAY_CAP,
                () -> Situation.chlorineFeeding(Times.USUAL, new DoseCaps(20, 100, 6, 1)),
                CauseTest::nothing,
                200,
                CauseTest::nothing),
            chlorine(
                Cause.CHLORINE_NOT_BOOKED,
                CHLORINE_ON,
                s -> s.ledgerStands = true,
                40,
                s -> s.ledgerStands = false),
            chlorine(
                Cause.CHLORINE_LONGEST_RUN,
                () -> Situation.chlorineFeeding(900),
                CauseTest::nothing,
                90,
                CauseTest::nothing),
            acid(
                Cause.ACID_LONGEST_RUN,
                () -> Situation.acidFeeding(50),
                CauseTest::nothing,
                6,
                CauseTest::nothing),
            chlorine(
                Cause.CELL_OVER_CURRENT,
                CHLORINE_ON,
                s -> s.cellA = 10,
                3,
                s -> {
                  s.cellA = 5;
                  resets(s, Cause.CELL_OVER_CURRENT);
                }),
            chlorine(
                Cause.TANK_LOW,
                CHLORINE_ON,
                s -> s.missing(Role.TANK_LOW),
                1,
                s -> s.contact(Role.TANK_LOW, false)),
            chlorine(
                Cause.TANK_LOW,
                CHLORINE_ON,
                s -> s.contact(Role.TANK_LOW, true),
                1,
                s -> s.contact(Role.TANK_LOW, false)),
            acid(
                Cause.ACID_HOUR_CAP,
                () -> Situation.acidFeeding(Times.USUAL, new DoseCaps(1500, 60, 1000, 50)),
                CauseTest::nothing,
                20,
                CauseTest::nothing),
            acid(
                Cause.ACID_DAY_CAP,
                () -> Situation.acidFeeding(Times.USUAL, new DoseCaps(1500, 1000, 60, 50)),
                CauseTest::nothing,
                20,
                CauseTest::nothing),
            acid(
                Cause.ACID_NOT_BOOKED,
                ACID_ON,
                s -> s.ledgerStands = true,
                30,
                s -> s.ledgerStands = false),
            acid(
                Cause.ACID_TANK_LOW,
                ACID_ON,
                s -> s.contact(Role.ACID_TANK_LOW, true),
                1,
                s -> s.contact(Role.ACID_TANK_LOW, false)),
            row(
                Cause.CELL_CURRENT_UNEXPECTED,
                CauseTest::cellStuck,
                Effect.INHIBIT,
                ACID_ON,
                Effect.INHIBIT,
                s -> s.cellStuck = true,
                3,
                CauseTest::resets),
            both(
                Cause.OUTPUT_NOT_DRIVEN,
                s -> s.outputsDriven = false,
                1,
                s -> s.outputsDriven = true),
            none(
                Cause.LEDGER_FAILING, s -> s.ledgerFailing = true, 1, s -> s.ledgerFailing = false),
            none(
                Cause.TARGET_LOW_FOR_STABILISER, s -> stabiliser(s, 80), 1, s -> stabiliser(s, 30)),
            none(Cause.STABILISER_HIGH, s -> stabiliser(s, 120), 1, s -> stabiliser(s, 40)),
            none(Cause.CELL_CURRENT_LOW, s -> s.cellA = 3, 62, s -> s.cellA = 5.5),
            none(
                Cause.CONFIGURATION_CHANGED,
                LONG_ON,
                s -> {
                  moves(s);
                  s.restart(Map.of("limits.orp_high", "780 mV"));
                  s.restart(Map.of("limits.orp_high", "800 mV"));
                },
                40,
                CauseTest::nothing),
            none(Cause.TEST_OVERDUE, LONG_ON, CauseTest::moves, 43_300, s -> tested(s, 3)),
            none(Cause.CELL_CURRENT_MISSING, s -> s.cellDead = true, 45, s -> s.cellDead = false),
            none(
                Cause.CLOCK_NOT_TRUSTED,
                s -> s.clockTrusted = false,
                60,
                s -> s.clockTrusted = true),
            none(
                Cause.TEST_DUE,
                s -> {
                  tested(s, 2.1);
                  tested(s, 4.7);
                },
                1,
                s -> tested(s, 2.1)),
            none(Cause.CHLORINE_USED_UP, s -> tested(s, 0.4), 1, s -> tested(s, 0.6)),
            none(Cause.COMBINED_CHLORINE_HIGH, s -> combined(s, 0.6), 1, s -> combined(s, 0.5)))
        .flatMap(List::stream);
  }

  @ParameterizedTest
  @MethodSource("rows")
  void aCauseAloneTakesTheOutputAndGivesItBack(Row row) {
    Situation s = row.from.make();
    boolean feeding = s.out.outputs().of(row.output) > 0;
    assertTrue(
        feeding || row.cause == Cause.CELL_CURRENT_UNEXPECTED, () -> "not feeding, " + s.out);

    row.comes.accept(s);
    for (int i = 0; i == 0 || (i < row.scans && !came(s, row)); i++) {
      s.scan(1);
    }
    assertTrue(came(s, row), () -> "by " + taking(s, row) + ": " + s.out);
    assertEquals(row.held, s.out.permission().of(row.output));
    double left = s.out.outputs().of(row.output);
    double demanded =
        row.output == Output.CHLORINE ? s.out.demand().chlorineDuty() : s.out.demand().acidDuty();
    switch (row.held) {
      case INHIBIT -> assertEquals(0, left);
      case LIMIT -> {
        assertEquals(s.out.demand().fallbackDuty(), left);
        assertTrue(left > 0 && left < demanded, () -> left + " of " + demanded);
      }
      case NONE -> assertEquals(demanded, left);
    }
    if (row.cause != Cause.MODE_OFF) {
      assertTrue(demanded > 0, "nothing was demanded, so nothing could be taken");
    }

    row.goes.accept(s);
    for (int i = 0; i < 25 * 360 && s.out.permission().active().contains(row.cause); i++) {
      s.scan(1);
    }
    assertTrue(!s.out.permission().active().contains(row.cause), () -> "stays: " + s.out);
    if (row.output == Output.CHLORINE) {
      for (int i = 0; i < 60 && s.out.outputs().chlorine() == 0; i++) {
        s.scan(1);
      }
      assertTrue(s.out.outputs().chlorine() > 0, () -> "not free again: " + s.out);
    }
  }

  private static boolean came(Situation s, Row row) {
    return s.out.permission().active().contains(row.cause)
        && taking(s, row).equals(row.held == Effect.NONE ? Set.of() : Set.of(row.cause));
  }

  /** The causes with the most severe effect on the output. */
  private static Set<Cause> taking(Situation s, Row row) {
    Effect worst = s.out.permission().of(row.output);
    return s.out.permission().active().stream()
        .filter(c -> worst != Effect.NONE && c.on(row.output) == worst)
        .collect(Collectors.toSet());
  }

  /** The two that come with feeding itself, in the order in which a turn of acid has them. */
  @Test
  void chlorineAndAcidKeepApart() {
    Situation s = Situation.chlorineFeeding(Times.USUAL, new DoseCaps(20, 1000, 1000, 1));
    s.ph(7.8);
    assertEquals(Set.of(Cause.CHLORINE_RECENT), heldUntilOn(s, Output.CHLORINE, Output.ACID));
    s.ph(7.4);
    assertEquals(Set.of(Cause.ACID_RECENT), heldUntilOn(s, Output.ACID, Output.CHLORINE));
  }

  /** What holds the one output to the last, for the separation time after the other. */
  private static Set<Cause> heldUntilOn(Situation s, Output other, Output output) {
    Set<Cause> last = Set.of();
    int scans = 0;
    for (int i = 0; i < 2000 && s.out.outputs().of(output) == 0; i++) {
      last = s.out.permission().active();
      scans = s.out.outputs().of(other) > 0 ? 0 : scans + 1;
      s.scan(1);
    }
    assertTrue(s.out.outputs().of(output) > 0, () -> "never on: " + s.out);
    assertEquals(300 / Situation.SCAN_S, scans, "scans of separation");
    return last;
  }

  @Test
  void everyCauseThatTakesSomethingIsProvoked() {
    EnumSet<Cause> provoked = EnumSet.copyOf(rows().map(Row::cause).collect(Collectors.toSet()));
    provoked.addAll(Set.of(Cause.CHLORINE_RECENT, Cause.ACID_RECENT)); // chlorineAndAcidKeepApart
    provoked.add(Cause.FLOW_MISSING); // takes nothing, and never comes without NO_FLOW
    // They take nothing, and come with what limits for want of a measurement: BlindFeedTest.
    provoked.addAll(Set.of(Cause.FEEDING_BLIND, Cause.BLIND_FEED_LOW));
    provoked.add(Cause.PROBE_WORN); // ProbeCareTest: it goes with the file only
    provoked.add(Cause.ACID_NO_RESPONSE); // AcidInVainTest: it comes between two turns
    provoked.addAll(Coverage.SLOW); // LongStoriesTest
    assertEquals(EnumSet.allOf(Cause.class), provoked);
    for (Cause cause : Set.of(Cause.FLOW_MISSING, Cause.FEEDING_BLIND, Cause.BLIND_FEED_LOW)) {
      assertEquals(Effect.NONE, cause.on(Output.CHLORINE), cause.id());
      assertEquals(Effect.NONE, cause.on(Output.ACID), cause.id());
    }
  }

  /** It comes of feeding, or goes with time. */
  private static void nothing(Situation s) {}

  /** A live electrode in a pool that is fed. */
  private static void moves(Situation s) {
    s.swingMv = 20;
  }

  private static void resets(Situation s, Cause cause) {
    s.scan(1);
    s.commands.add(new Command.Reset(cause.id()));
  }

  private static void diesFiveTimes(Situation s) {
    for (int i = 0; i < 5; i++) {
      s.scan(1);
      s.dies();
    }
    s.scan(2);
    byHand(s);
  }

  private static void flowBlinks(Situation s) {
    s.contact(Role.FLOW, false);
    s.scan(1);
    s.contact(Role.FLOW, true);
  }

  /** For three minutes; then the pump's contact closes again, and flow alone is not believed. */
  private static void flowStaysThoughThePumpRests(Situation s) {
    s.contact(Role.PUMP_ON, false);
    s.scan(19);
    s.contact(Role.PUMP_ON, true);
  }

  private static void testedPh(Situation s, double ph) {
    s.commands.add(new Command.Test(WaterTest.EMPTY.with(Tested.PH, ph)));
  }

  private static void twoTestsOfPh(Situation s, double ph) {
    testedPh(s, ph);
    s.scan(30);
    testedPh(s, ph);
  }

  private static void byHand(Situation s) {
    s.commands.add(new Command.SetMode(Mode.MANUAL, OptionalDouble.of(0.9)));
  }

  private static void tested(Situation s, double freeChlorineMgL) {
    s.commands.add(new Command.Test(WaterTest.EMPTY.with(Tested.FREE_CHLORINE, freeChlorineMgL)));
  }

  private static void stabiliser(Situation s, double cyanuricAcidMgL) {
    s.commands.add(new Command.Test(WaterTest.EMPTY.with(Tested.CYANURIC_ACID, cyanuricAcidMgL)));
  }

  /** The first contradicts what is known, the second bears it out. */
  private static void testedTwiceLow(Situation s) {
    tested(s, 1);
    s.scan(40);
    tested(s, 1);
  }

  private static void combined(Situation s, double combinedMgL) {
    s.commands.add(new Command.Test(WaterTest.EMPTY.with(Tested.COMBINED_CHLORINE, combinedMgL)));
  }

  /** Current while chlorine is off; then chlorine is wanted. */
  private static Situation cellStuck() {
    Situation s = CHLORINE_ON.make();
    s.commands.add(new Command.SetMode(Mode.MANUAL, OptionalDouble.of(0)));
    s.scan(2);
    s.cellStuck = true;
    s.scan(3);
    byHand(s);
    return s;
  }

  private static void resets(Situation s) {
    Command reset = new Command.Reset(Cause.CELL_CURRENT_UNEXPECTED.id());
    s.commands.add(reset);
    s.scan(1);
    assertTrue(
        s.out.permission().active().contains(Cause.CELL_CURRENT_UNEXPECTED), "reset while there");
    s.cellStuck = false;
    s.scan(1);
    assertTrue(
        s.out.permission().active().contains(Cause.CELL_CURRENT_UNEXPECTED),
        "gone without a reset");
    s.commands.add(reset);
  }

  private static List<Row> row(
      Cause cause,
      Beginning chlorineOn,
      Effect onChlorine,
      Beginning acidOn,
      Effect onAcid,
      Consumer<Situation> comes,
      int scans,
      Consumer<Situation> goes) {
    return List.of(
        new Row(cause, Output.CHLORINE, onChlorine, chlorineOn, comes, scans, goes),
        new Row(cause, Output.ACID, onAcid, acidOn, comes, scans, goes));
  }

  private static List<Row> both(
      Cause cause, Consumer<Situation> comes, int scans, Consumer<Situation> goes) {
    return row(cause, CHLORINE_ON, Effect.INHIBIT, ACID_ON, Effect.INHIBIT, comes, scans, goes);
  }

  private static List<Row> chlorineOnly(
      Cause cause, Consumer<Situation> comes, int scans, Consumer<Situation> goes) {
    return row(cause, CHLORINE_ON, Effect.INHIBIT, ACID_ON, Effect.NONE, comes, scans, goes);
  }

  private static List<Row> chlorine(
      Cause cause, Beginning from, Consumer<Situation> comes, int scans, Consumer<Situation> goes) {
    return List.of(new Row(cause, Output.CHLORINE, Effect.INHIBIT, from, comes, scans, goes));
  }

  private static List<Row> acid(
      Cause cause, Beginning from, Consumer<Situation> comes, int scans, Consumer<Situation> goes) {
    return List.of(new Row(cause, Output.ACID, Effect.INHIBIT, from, comes, scans, goes));
  }

  private static List<Row> none(
      Cause cause, Beginning from, Consumer<Situation> comes, int scans, Consumer<Situation> goes) {
    return List.of(new Row(cause, Output.CHLORINE, Effect.NONE, from, comes, scans, goes));
  }

  private static List<Row> none(
      Cause cause, Consumer<Situation> comes, int scans, Consumer<Situation> goes) {
    return List.of(new Row(cause, Output.CHLORINE, Effect.NONE, CHLORINE_ON, comes, scans, goes));
  }
}
