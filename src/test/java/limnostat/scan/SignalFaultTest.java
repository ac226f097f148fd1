package limnostat.scan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Random;
import limnostat.actuate.Output;
import limnostat.actuate.OutputSettings;
import limnostat.actuate.OutputSettings.Drive;
import limnostat.control.Mode;
import limnostat.measure.Role;
import limnostat.measure.Signal;
import limnostat.measure.Signals;
import limnostat.safety.Cause;
import limnostat.safety.SafetyLimits;
import limnostat.scan.ScanSettings.Channel;
import limnostat.wire.SavedState;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * S4: whatever goes wrong with a probe while all else is well, chlorine is never fed above the
 * learned demand nor, where the probe is the ORP's, above the plan; and in all no more than the
 * blind budget, rationed to last.
 */
@Tag("slow")
class SignalFaultTest {
  private static final double BLIND_FEED_MG_L = 1.5;
  private static final double DAY_S = 86_400;
  private static final double STALE_S = 60;

  enum Fault {
    MISSING,
    NOT_A_NUMBER,
    INFINITE,
    OUT_OF_RANGE,
    FROZEN,
    /** Good on one scan in four. */
    FLAPPING
  }

  private static final Map<Role, Cause> FAILURES =
      Map.of(
          Role.ORP_MV, Cause.ORP_FAILURE,
          Role.PH_MV, Cause.PH_FAILURE,
          Role.WATER_C, Cause.WATER_FAILURE);

  @ParameterizedTest
  @CsvSource({
    "ORP_MV, MISSING",
    "ORP_MV, NOT_A_NUMBER",
    "ORP_MV, INFINITE",
    "ORP_MV, OUT_OF_RANGE",
    "ORP_MV, FROZEN",
    "ORP_MV, FLAPPING",
    "PH_MV, MISSING",
    "PH_MV, NOT_A_NUMBER",
    "PH_MV, INFINITE",
    "PH_MV, OUT_OF_RANGE",
    "PH_MV, FROZEN",
    "PH_MV, FLAPPING",
    "WATER_C, MISSING",
    "WATER_C, NOT_A_NUMBER",
    "WATER_C, INFINITE",
    "WATER_C, OUT_OF_RANGE",
    "WATER_C, FLAPPING"
  })
  void aBadSignalNeverRaisesChlorine(Role role, Fault fault) {
    double fedS = 0;
    for (long seed = 1; seed <= 10; seed++) {
      fedS += run(role, fault, seed);
    }
    assertTrue(fedS > 3600, "fed on the learned demand for " + fedS + " s in all");
  }

  /** Seconds at full duty that were fed on the fallback. */
  private static double run(Role role, Fault fault, long seed) {
    Random random = new Random(seed);
    ScanSettings settings = settings(seed % 2 == 0 ? Drive.RELAY : Drive.PROPORTIONAL);
    boolean manual = seed % 5 == 0;
    boolean raising = seed % 5 == 1;
    ScanState state = ScanState.start(settings);
    double atS = 0;
    double beganS = 2000 + 4000 * random.nextDouble();
    double failedS = Double.NaN;
    double gives = 0;
    double fedS = 0;
    double allows = 0;
    // A relay may owe one cycle from before.
    double allowedS = settings.chlorine().output().cycleS();
    double orpMv = 640 + 70 * random.nextDouble();
    Signal frozen = null;
    boolean commanded = false;
    int scans = 0;
    while (atS < beganS + 3600 * 5) {
      double dtS = 5 + 25 * random.nextDouble();
      atS += dtS;
      fedS += gives * dtS;
      allowedS += allows * dtS;
      orpMv = Math.max(620, Math.min(760, orpMv + 2 * random.nextGaussian()));
      Map<Role, Signal> signals = good(random, orpMv);
      boolean faulty = atS >= beganS;
      if (faulty && (fault != Fault.FLAPPING || ++scans % 4 != 0)) {
        frozen = frozen == null ? signals.get(role) : frozen;
        signals.put(role, bad(fault, frozen));
      }
      List<Command.Request> commands = List.of();
      if (!commanded && (manual || raising) && atS > beganS - 600) {
        commanded = true;
        commands =
            List.of(
                CommandSource.request(
                    manual
                        ? new Command.SetMode(Mode.MANUAL, OptionalDouble.of(0.9))
                        : new Command.Superchlorinate(9, 20 * 3600),
                    1));
      }
      ScanOutcome out = Scan.step(settings, state, inputs(dtS, atS, signals, commands));
      double duty =
          out.permission()
              .trim(Output.CHLORINE, out.demand().chlorineDuty(), out.demand().fallbackDuty());
      String where = role + " " + fault + ", seed " + seed + ", " + atS + " s, began " + beganS;
      boolean failed = faulty && out.permission().active().contains(FAILURES.get(role));
      if (failed && Double.isNaN(failedS)) {
        failedS = atS;
      }
      // The held value may be used for a short while, a person's duty with it.
      boolean goneAtOnce = fault != Fault.FROZEN && fault != Fault.FLAPPING;
      boolean blind = failed || (faulty && goneAtOnce && role == Role.ORP_MV && !manual);
      if (blind) {
        double learned = learned(settings, out);
        assertTrue(duty <= learned, () -> where + ": " + duty + ", learned " + learned);
        if (role == Role.ORP_MV && goneAtOnce && !manual) {
          double planned = out.state().control().plan().duty();
          assertTrue(duty <= planned, () -> where + ": " + duty + ", planned " + planned);
        }
      }
      double fed = fedS;
      double allowed = allowedS;
      assertTrue(fed <= allowed, () -> where + ": fed " + fed + " of " + allowed + " s");
      state = out.state();
      gives = failed ? out.outputs().chlorine() : 0;
      allows = failed ? duty : 0;
    }
    double fedMgL = fedS * settings.chlorine().caps().ratePerH() / 3600 / 50;
    String all = role + " " + fault + ", seed " + seed + ": " + fedMgL + " mg/L";
    assertTrue(fedMgL < BLIND_FEED_MG_L / 4, all + " in five hours is no ration");
    assertTrue(failedS <= beganS + (fault == Fault.FROZEN ? 3600 : STALE_S) + 60, "not noticed");
    return fedS;
  }

  /**
   * A month without one of the probes, with kills and stops: what goes in is the budget and no
   * more, most of it within a week or two, some of it later than that, and by then people are
   * called.
   */
  @ParameterizedTest
  @CsvSource({"ORP_MV, 1", "ORP_MV, 2", "PH_MV, 3", "PH_MV, 4", "WATER_C, 5", "WATER_C, 6"})
  void aMonthWithoutAProbeGetsTheBudgetAndNoMore(Role role, long seed) throws IOException {
    Random random = new Random(seed);
    ScanSettings settings = settings(seed % 2 == 0 ? Drive.RELAY : Drive.PROPORTIONAL);
    ScanState state = ScanState.start(settings);
    double orpMv = 660;
    double atS = 0;
    double fedMgL = 0;
    double afterFiveDaysMgL = 0;
    double spentBeforeMgL = 0;
    double goodS = 2 * DAY_S;
    while (atS < goodS + 30 * DAY_S) {
      double dtS = 20 + 40 * random.nextDouble();
      atS += dtS;
      orpMv = Math.max(620, Math.min(690, orpMv + 2 * random.nextGaussian()));
      Map<Role, Signal> signals = good(random, orpMv);
      boolean faulty = atS >= goodS;
      if (!faulty) {
        spentBeforeMgL = state.safety().blind().fedMgL();
      } else {
        signals.put(role, bad(Fault.MISSING, null));
      }
      double booked = state.chlorine().account().requested();
      ScanOutcome out = Scan.step(settings, state, inputs(dtS, atS, signals, List.of(), booked));
      double gives = out.outputs().chlorine() * settings.chlorine().caps().ratePerH() / 3600 / 50;
      fedMgL += faulty && out.permission().active().contains(FAILURES.get(role)) ? gives * dtS : 0;
      afterFiveDaysMgL = atS < goodS + 5 * DAY_S ? fedMgL : afterFiveDaysMgL;
      double fed = fedMgL;
      assertTrue(fed <= 1.02 * BLIND_FEED_MG_L, () -> role + ", seed " + seed + ": " + fed);
      state = out.state();
      if (random.nextInt(3000) == 0) {
        state = SavedState.read(SavedState.write(state)).resumed(settings);
      }
    }
    assertTrue(state.safety().active().contains(Cause.BLIND_FEED_SPENT), "fed " + fedMgL);
    assertTrue(state.alarms().containsKey(Cause.BLIND_FEED_SPENT));
    // A restart that cannot prove what was given counts it as given blind.
    assertTrue(
        spentBeforeMgL + fedMgL > 0.8 * BLIND_FEED_MG_L, spentBeforeMgL + " before, fed " + fedMgL);
    assertTrue(afterFiveDaysMgL < 0.97 * fedMgL, afterFiveDaysMgL + " of " + fedMgL);
  }

  /** Until ORP has been seen once nothing is fed, whoever asks. */
  @ParameterizedTest
  @EnumSource(
      value = Fault.class,
      names = {"FROZEN", "FLAPPING"},
      mode = EnumSource.Mode.EXCLUDE)
  void nothingBeforeTheFirstOrp(Fault fault) {
    ScanSettings settings = settings(Drive.PROPORTIONAL);
    for (Command command :
        List.of(
            new Command.SetMode(Mode.AUTO, OptionalDouble.empty()),
            new Command.SetMode(Mode.MANUAL, OptionalDouble.of(1)),
            new Command.Superchlorinate(9, 20 * 3600))) {
      Random random = new Random(1);
      ScanState state = ScanState.start(settings);
      List<Command.Request> commands = List.of(CommandSource.request(command));
      for (int i = 1; i < 2000; i++) {
        Map<Role, Signal> signals = good(random, 650);
        signals.put(Role.ORP_MV, bad(fault, null));
        ScanOutcome out =
            Scan.step(
                settings, state, inputs(5, 5 * i, signals, i % 100 == 1 ? commands : List.of()));
        assertEquals(0, out.outputs().chlorine(), command + ", scan " + i);
        state = out.state();
      }
    }
  }

  private static double learned(ScanSettings settings, ScanOutcome out) {
    return out.estimate().demandMgLDay()
        * settings.estimate().volumeM3()
        / (24 * settings.chlorine().caps().ratePerH());
  }

  private static Map<Role, Signal> good(Random random, double orpMv) {
    Map<Role, Signal> signals = new EnumMap<>(Role.class);
    signals.put(Role.FLOW, new Signal.Contact(true));
    signals.put(Role.ORP_MV, new Signal.Analog(orpMv + random.nextGaussian()));
    signals.put(Role.PH_MV, new Signal.Analog(-25 + 0.2 * random.nextGaussian()));
    signals.put(Role.WATER_C, new Signal.Analog(24 + 0.05 * random.nextGaussian()));
    return signals;
  }

  private static Signal bad(Fault fault, Signal frozen) {
    return switch (fault) {
      case MISSING, FLAPPING -> new Signal.Missing("unplugged");
      case NOT_A_NUMBER -> new Signal.Analog(Double.NaN);
      case INFINITE -> new Signal.Analog(Double.NEGATIVE_INFINITY);
      case OUT_OF_RANGE -> new Signal.Analog(-2000);
      case FROZEN -> frozen;
    };
  }

  private static ScanInputs inputs(
      double dtS, double atS, Map<Role, Signal> signals, List<Command.Request> commands) {
    return inputs(dtS, atS, signals, commands, 1e9);
  }

  private static ScanInputs inputs(
      double dtS,
      double atS,
      Map<Role, Signal> signals,
      List<Command.Request> commands,
      double booked) {
    return new ScanInputs(
        dtS,
        1_780_000_000 + atS,
        true,
        Signals.of(signals),
        Map.of(Output.CHLORINE, booked, Output.ACID, booked),
        false,
        true,
        commands);
  }

  private static ScanSettings settings(Drive drive) {
    ScanSettings pool = TestSettings.pool();
    OutputSettings o = pool.chlorine().output();
    return new ScanSettings(
        pool.measure(),
        pool.estimate(),
        pool.control(),
        new SafetyLimits(800, 5, 10, 6.8, 8.0, 10, 40, 60, 300, BLIND_FEED_MG_L),
        new Channel(
            new OutputSettings(
                drive, o.cycleS(), o.minOnS(), o.minOffS(), o.longestRunS(), o.restS()),
            pool.chlorine().caps()),
        Channel.NONE);
  }
}
