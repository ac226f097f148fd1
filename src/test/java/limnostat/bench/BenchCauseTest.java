package limnostat.bench;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import limnostat.actuate.Output;
import limnostat.rig.ConfigText;
import limnostat.safety.Cause;
import limnostat.safety.Effect;
import limnostat.safety.Priority;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * The matrix from outside: a plant writes lines of the bench protocol, an output feeds, the cause
 * comes; the answers name it, the output does what the matrix says, the alarm is raised; the cause
 * goes, and so do hold and alarm. What each row does alone, and to which output, is
 * limnostat.scan's CauseTest.
 */
class BenchCauseTest {
  /** What no line can bring about: each has its test in whole scans or in real processes. */
  private static final Map<Cause, String> NOT_FROM_LINES =
      Map.ofEntries(
          Map.entry(Cause.RESTART_LOOP, "a bench is one process from its first line to its last"),
          Map.entry(Cause.SCAN_OVERRUN, "the plant's time is the only time; no scan is late"),
          Map.entry(
              Cause.CONFIGURATION_CHANGED, "a bench reads one file and remembers none before"),
          Map.entry(
              Cause.CHLORINE_NOT_BOOKED, "there is no ledger; bookings are confirmed at once"),
          Map.entry(Cause.ACID_NOT_BOOKED, "there is no ledger; bookings are confirmed at once"),
          Map.entry(Cause.LEDGER_FAILING, "there is no ledger"),
          Map.entry(Cause.ACCOUNT_UNKNOWN, "there is no ledger"),
          Map.entry(Cause.OUTPUT_NOT_DRIVEN, "there is no board; the answer is the output"),
          Map.entry(Cause.CLOCK_NOT_TRUSTED, "the plant's time is taken to be right"),
          Map.entry(
              Cause.ESTIMATE_LOST,
              "weights of hypotheses decide it, no line: BlindFeedTest, DetectionTest"),
          Map.entry(
              Cause.ESTIMATE_UNSURE, "a day of doubt that no line sets: DoubtTest, DetectionTest"),
          Map.entry(
              Cause.CHLORINE_DOUBTFUL, "a day of odds that no line sets: DoubtTest, DetectionTest"),
          Map.entry(
              Cause.STARVED_BY_ORP, "a day of a plan that no line sets: DoubtTest, ControlTest"),
          Map.entry(Cause.ORP_FALLING, "takes days of lines: ResponseTest, FaultSuiteTest"));

  /** An alarm may wait for its delay, and a bit. */
  private static final double ALARM_S = 200;

  @TempDir Path folder;

  private interface Deed {
    void on(BenchPlant plant) throws IOException;
  }

  /**
   * @param output what feeds before
   * @param config what the file says beside, keys and values in turns
   * @param withinS until it counts, s
   * @param goes empty hands: it goes with time or not within a run
   * @param goneS until it counts no more, s; 0: not within a run
   */
  private record Row(
      Cause cause,
      Output output,
      List<String> config,
      Deed comes,
      double withinS,
      Deed goes,
      double goneS) {
    Row with(String... keysAndValues) {
      return new Row(cause, output, List.of(keysAndValues), comes, withinS, goes, goneS);
    }

    @Override
    public String toString() {
      return cause.id();
    }
  }

  private static final Deed NOTHING = plant -> {};

  private static Row chlorine(Cause cause, Deed comes, double withinS, Deed goes, double goneS) {
    return new Row(cause, Output.CHLORINE, List.of(), comes, withinS, goes, goneS);
  }

  private static Row acid(Cause cause, Deed comes, double withinS, Deed goes, double goneS) {
    return new Row(cause, Output.ACID, List.of(), comes, withinS, goes, goneS);
  }

  private static Deed put(String role, double value) {
    return plant -> plant.in.put(role, value);
  }

  private static Deed put(String role, boolean closed) {
    return plant -> plant.in.put(role, closed);
  }

  private static Deed unplugged(String role) {
    return plant -> plant.in.putNull(role);
  }

  private static Deed ph(double ph) {
    return plant -> plant.ph(ph);
  }

  private static Deed command(String document) {
    return plant -> plant.command(document);
  }

  private static Deed test(String results) {
    return command("{'type':'test_result'," + results + "}");
  }

  /** In long steps, with ORP as of a live electrode. */
  private static Deed slowly(Deed deed) {
    return plant -> {
      plant.stepS = 60;
      plant.swingMv = 20;
      deed.on(plant);
    };
  }

  private static Deed twice(Deed deed) {
    return plant -> {
      deed.on(plant);
      plant.scan(400);
      deed.on(plant);
    };
  }

  private static final Deed FLOW_BLINKS =
      plant -> {
        plant.in.put("flow", false);
        plant.scan(plant.stepS);
        plant.in.put("flow", true);
      };

  private static final String BY_HAND = "{'type':'mode','mode':'manual','duty':0.9}";

  static Stream<Row> rows() {
    return Stream.of(
        chlorine(Cause.INTERRUPTED, p -> p.gap(61), 10, NOTHING, 10),
        chlorine(Cause.MODE_OFF, command("{'type':'mode','mode':'off'}"), 10, command(BY_HAND), 10),
        chlorine(Cause.NO_FLOW, put("flow", false), 10, put("flow", true), 10),
        chlorine(Cause.FLOW_NOT_PROVEN, FLOW_BLINKS, 10, NOTHING, 60),
        chlorine(Cause.FLOW_MISSING, put("flow", false), 10, put("flow", true), 10),
        chlorine(Cause.FLOW_UNASKED, NOTHING, 3600 + 900, put("flow", false), 10)
            .with(
                "pump.windows",
                "['10:00-11:00']",
                "inputs.fitted",
                "[]",
                "pool.daily_demand",
                "'0.2 mg/L'"),
        chlorine(
            Cause.FLOW_STUCK,
            put("pump_on", false),
            190,
            p -> {
              put("pump_on", true).on(p);
              FLOW_BLINKS.on(p);
            },
            10),
        chlorine(Cause.PUMP_OFF, put("pump_on", false), 10, put("pump_on", true), 10),
        chlorine(Cause.STANDING_WATER, FLOW_BLINKS, 10, NOTHING, 190),
        chlorine(
            Cause.FUNCTION_CHECK,
            command("{'type':'function_check','minutes':30}"),
            10,
            command("{'type':'function_check','minutes':0}"),
            10),
        chlorine(Cause.COVER_CLOSED, put("cover_closed", true), 10, put("cover_closed", false), 70),
        chlorine(Cause.ORP_FAILURE, unplugged("orp_mv"), 80, put("orp_mv", 650), 300),
        chlorine(Cause.PH_FAILURE, unplugged("ph_mv"), 80, ph(7.4), 300),
        acid(Cause.PH_DISAGREES, twice(test("'ph':8.4")), 10, test("'ph':7.8"), 10),
        chlorine(Cause.WATER_FAILURE, unplugged("water_c"), 80, put("water_c", 25), 300),
        chlorine(
                Cause.WATER_DISAGREES,
                slowly(
                    p -> {
                      p.scan(3600);
                      p.in.put("water_c", 33);
                    }),
                2000,
                put("water_c", 25),
                2000)
            .with("chlorine.output", "'5 g/h'"),
        acid(Cause.PH_UNEXPLAINED, ph(8.3), 2000, test("'ph':8.3"), 60),
        acid(Cause.ACID_NO_RESPONSE, slowly(NOTHING), 16 * 3600, test("'ph':7.8"), 60)
            .with("limits.acid_hour", "'400 mL'", "limits.acid_day", "'1000 mL'"),
        chlorine(Cause.PROBE_WORN, NOTHING, 10, NOTHING, 0).with("orp.offset", "'30 mV'"),
        // A date that lies ahead, until it does not.
        chlorine(Cause.CALIBRATION_DUE, NOTHING, 10, slowly(NOTHING), 15 * 3600)
            .with("ph.calibrated", "'2026-07-03'", "chlorine.output", "'5 g/h'"),
        chlorine(Cause.FEEDING_BLIND, unplugged("orp_mv"), 100, put("orp_mv", 650), 900),
        chlorine(
                Cause.BLIND_FEED_LOW,
                slowly(unplugged("orp_mv")),
                4 * 86_400,
                test("'free_chlorine_mg_l':1.5"),
                60)
            .with("limits.blind_feed", "'0.5 mg/L'"),
        chlorine(Cause.BLIND_FEED_SPENT, unplugged("orp_mv"), 100, put("orp_mv", 650), 900)
            .with("limits.blind_feed", "'0 mg/L'"),
        chlorine(
                Cause.NO_RESPONSE,
                p -> p.stepS = 60,
                50 * 3600,
                command("{'type':'reset','interlock':'no_response'}"),
                60)
            .with("chlorine.output", "'5 g/h'"),
        chlorine(Cause.WATER_COLD, put("water_c", 8), 400, put("water_c", 25), 400),
        chlorine(Cause.WATER_HOT, put("water_c", 42), 400, put("water_c", 25), 400),
        chlorine(Cause.PH_LOW, ph(6.6), 80, ph(7.4), 80),
        chlorine(Cause.PH_HIGH, ph(8.1), 80, ph(7.4), 80),
        chlorine(Cause.ORP_HIGH, put("orp_mv", 790), 80, put("orp_mv", 700), 80)
            .with("limits.orp_high", "'780 mV'"),
        chlorine(
            Cause.FREE_CHLORINE_HIGH,
            p -> {
              test("'free_chlorine_mg_l':2").on(p);
              test("'free_chlorine_mg_l':9").on(p);
            },
            10,
            test("'free_chlorine_mg_l':2"),
            10),
        chlorine(
            Cause.TARGET_LOW_FOR_STABILISER,
            test("'cyanuric_acid_mg_l':90"),
            10,
            test("'cyanuric_acid_mg_l':20"),
            10),
        chlorine(
            Cause.STABILISER_HIGH,
            test("'cyanuric_acid_mg_l':130"),
            10,
            twice(test("'cyanuric_acid_mg_l':30")),
            10),
        chlorine(Cause.CHLORINE_HOUR_CAP, NOTHING, 3600, NOTHING, 4000)
            .with("limits.chlorine_hour", "'6 g'"),
        chlorine(Cause.CHLORINE_DAY_CAP, NOTHING, 7200, slowly(NOTHING), 25 * 3600)
            .with(
                "limits.chlorine_hour",
                "'12 g'",
                "limits.chlorine_day",
                "'12 g'",
                "pool.daily_demand",
                "'0.2 mg/L'"),
        chlorine(Cause.CHLORINE_LONGEST_RUN, NOTHING, 910, NOTHING, 310)
            .with("chlorine.longest_run", "'15 min'", "chlorine.rest", "'5 min'"),
        acid(Cause.ACID_HOUR_CAP, NOTHING, 200, NOTHING, 4000).with("limits.acid_hour", "'60 mL'"),
        acid(Cause.ACID_DAY_CAP, NOTHING, 200, slowly(NOTHING), 25 * 3600)
            .with("limits.acid_hour", "'60 mL'", "limits.acid_day", "'60 mL'"),
        acid(Cause.ACID_LONGEST_RUN, NOTHING, 60, NOTHING, 310)
            .with("acid.longest_run", "'0.5 min'", "acid.rest", "'5 min'"),
        acid(Cause.ACID_RECENT, NOTHING, 10, ph(7.4), 1200),
        chlorine(
            Cause.CHLORINE_RECENT,
            NOTHING,
            10,
            p -> {
              p.command("{'type':'mode','mode':'auto'}");
              p.ph(7.8);
            },
            4 * 3600),
        chlorine(Cause.TANK_LOW, put("tank_low", true), 10, put("tank_low", false), 70)
            .with("chlorine.source", "'liquid'", "inputs.fitted", "['tank_low']"),
        acid(Cause.ACID_TANK_LOW, unplugged("acid_tank_low"), 10, put("acid_tank_low", false), 70),
        chlorine(
            Cause.CELL_CURRENT_UNEXPECTED,
            p -> {
              p.command("{'type':'mode','mode':'manual','duty':0}");
              p.scan(20);
              p.cellStuck = true;
            },
            30,
            p -> {
              p.cellStuck = false;
              p.scan(10);
              p.command("{'type':'reset','interlock':'cell_current_unexpected'}");
              p.command(BY_HAND);
            },
            10),
        chlorine(
            Cause.CELL_CURRENT_MISSING, p -> p.cellDead = true, 460, p -> p.cellDead = false, 20),
        chlorine(Cause.CELL_CURRENT_LOW, p -> p.cellA = 3, 620, p -> p.cellA = 5, 20)
            .with("chlorine.cell_current", "'6 A'"),
        chlorine(
                Cause.CELL_OVER_CURRENT,
                p -> p.cellA = 10,
                30,
                p -> {
                  p.cellA = 5;
                  p.scan(10);
                  p.command("{'type':'reset','interlock':'cell_over_current'}");
                },
                10)
            .with("limits.cell_current_max", "'9 A'"),
        chlorine(
                Cause.OUTPUT_TOO_SMALL,
                slowly(
                    p -> {
                      p.command("{'type':'mode','mode':'auto'}");
                      p.command("{'type':'target','free_chlorine_mg_l':7}");
                    }),
                48 * 3600,
                command("{'type':'target','free_chlorine_mg_l':2}"),
                1200)
            .with(
                "pool.daily_demand",
                "'4 mg/L'",
                "chlorine.output",
                "'9 g/h'",
                "limits.free_chlorine_high",
                "'8 mg/L'"),
        chlorine(
            Cause.TEST_DUE,
            p -> {
              test("'free_chlorine_mg_l':2.1").on(p);
              p.scan(400);
              test("'free_chlorine_mg_l':4.7").on(p);
            },
            10,
            test("'free_chlorine_mg_l':2.1"),
            10),
        chlorine(
            Cause.CHLORINE_USED_UP,
            test("'free_chlorine_mg_l':0.3"),
            10,
            test("'free_chlorine_mg_l':0.7"),
            10),
        chlorine(Cause.TEST_OVERDUE, slowly(NOTHING), 25 * 3600, test("'free_chlorine_mg_l':2"), 60)
            .with("limits.test_overdue", "'1 d'", "chlorine.output", "'5 g/h'"),
        chlorine(
            Cause.COMBINED_CHLORINE_HIGH,
            test("'combined_chlorine_mg_l':0.8"),
            10,
            test("'combined_chlorine_mg_l':0.2"),
            10));
  }

  @Tag("slow")
  @ParameterizedTest
  @MethodSource("rows")
  void aPlantSeesOutputAlarmAndRecovery(Row row) throws IOException {
    BenchPlant plant = feeding(row);
    Cause cause = row.cause;
    row.comes.on(plant);
    boolean takes = Arrays.stream(Output.values()).anyMatch(o -> cause.on(o) != Effect.NONE);
    double withinS = row.withinS + (takes ? 0 : ALARM_S);
    assertTrue(plant.scanUntil(() -> counts(plant, cause), withinS), plant::told);
    assertEquals(
        Arrays.stream(Output.values())
            .filter(output -> cause.on(output) == Effect.INHIBIT)
            .map(Output::key)
            .toList(),
        plant.heldBy(cause));
    for (Output output : Output.values()) {
      if (cause.on(output) == Effect.INHIBIT) {
        assertEquals(0, plant.output(output.key()), plant::told);
      }
    }
    assertEquals(cause.on(Output.CHLORINE) == Effect.LIMIT, plant.limits(cause));
    if (cause.priority() != Priority.NONE) {
      String raised = cause.latching() ? "latched" : "unacknowledged";
      assertTrue(
          plant.alarm(cause).equals(raised) || plant.scanUntil(() -> told(plant, cause), ALARM_S),
          plant::told);
    }
    if (row.goneS == 0) {
      return;
    }
    row.goes.on(plant);
    assertTrue(
        plant.scanUntil(() -> gone(plant, cause), row.goneS + goneDelayS(cause)),
        () -> "stays: " + plant.told());
    if (cause.priority() != Priority.NONE) {
      assertEquals("returned unacknowledged", plant.alarm(cause));
      plant.command("{'type':'acknowledge','alarm':'" + cause.id() + "'}");
      plant.scan(plant.stepS);
      assertTrue(plant.accepted("acknowledge"), plant::told);
      assertEquals("normal", plant.alarm(cause));
    }
    if (row.output == Output.CHLORINE && cause != Cause.FLOW_UNASKED) {
      assertTrue(
          plant.output("chlorine") > 0
              || plant.scanUntil(() -> plant.output("chlorine") > 0, 2 * 3600),
          () -> "not on again: " + plant.told());
    }
  }

  private BenchPlant feeding(Row row) throws IOException {
    ConfigText config =
        ConfigText.shipped()
            .with(
                "inputs.fitted",
                "['cell_a','cover_closed','pump_on','acid_tank_low']".replace('\'', '"'))
            .with("pool.free_chlorine", "\"1 mg/L\"")
            .with("pump.windows", "[]")
            .with("limits.chlorine_day", "\"400 g\"")
            .with("chlorine.drive", "\"proportional\"")
            .with("chlorine.min_off", "\"0 s\"")
            .with("chlorine.longest_run", "\"1440 min\"")
            .with("acid.drive", "\"proportional\"");
    for (int i = 0; i < row.config.size(); i += 2) {
      config = config.with(row.config.get(i), row.config.get(i + 1).replace('\'', '"'));
    }
    BenchPlant plant = new BenchPlant(config, folder);
    if (row.output == Output.ACID) {
      plant.ph(7.8);
    } else {
      plant.scan(600);
      plant.command(BY_HAND);
    }
    assertTrue(
        plant.scanUntil(() -> plant.output(row.output.key()) > 0, 4 * 3600),
        () -> "does not feed: " + plant.told());
    return plant;
  }

  /** From outside: what holds or limits is in the state, all else is an alarm. */
  private static boolean counts(BenchPlant plant, Cause cause) {
    if (cause.on(Output.CHLORINE) == Effect.INHIBIT || cause.on(Output.ACID) == Effect.INHIBIT) {
      return !plant.heldBy(cause).isEmpty();
    }
    return cause.on(Output.CHLORINE) == Effect.LIMIT ? plant.limits(cause) : told(plant, cause);
  }

  private static boolean told(BenchPlant plant, Cause cause) {
    String state = plant.alarm(cause);
    return state.equals("unacknowledged") || state.equals("latched");
  }

  private static boolean gone(BenchPlant plant, Cause cause) {
    return plant.heldBy(cause).isEmpty() && !plant.limits(cause) && !told(plant, cause);
  }

  /** An alarm waits before it returns; one that is told alone shows no more than that. */
  private static double goneDelayS(Cause cause) {
    return cause.priority() == Priority.NONE ? 0 : cause.annunciation().offDelayS() + 120;
  }

  /** A line that is no input: off for that line, and an interruption for the next. */
  @Test
  void aMalformedLineIsOffAndAnInterruption() throws IOException {
    BenchPlant plant = feeding(chlorine(Cause.INTERRUPTED, NOTHING, 0, NOTHING, 0));
    plant.line("{\"t\":".getBytes(UTF_8));
    assertTrue(plant.answer.has("error"), plant.answer::toString);
    plant.scan(10);
    assertEquals(List.of("chlorine", "acid"), plant.heldBy(Cause.INTERRUPTED));
    assertEquals(0, plant.output("chlorine"));
  }

  @Test
  void everyCauseIsDrivenFromLinesOrSaysWhyNot() {
    Set<Cause> driven = rows().map(Row::cause).collect(Collectors.toSet());
    Set<Cause> all = EnumSet.copyOf(driven);
    all.addAll(NOT_FROM_LINES.keySet());
    assertEquals(EnumSet.allOf(Cause.class), all, "a row, or a reason in NOT_FROM_LINES");
    driven.retainAll(NOT_FROM_LINES.keySet());
    assertEquals(Set.of(), driven, "driven, so it needs no reason");
  }
}
