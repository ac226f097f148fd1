package limnostat.scan;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Random;
import limnostat.actuate.Output;
import limnostat.control.ControlSettings;
import limnostat.control.Mode;
import limnostat.measure.CalibrationAge;
import limnostat.measure.MeasureSettings;
import limnostat.safety.Effect;
import limnostat.safety.SafetyLimits;
import limnostat.wire.SavedState;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The same inputs give the same outputs, bit by bit; saved and restored as well as not. */
@Tag("slow")
class RepeatabilityTest {
  private static final int SCANS = 1000;

  @ParameterizedTest
  @ValueSource(longs = {1001, 1002, 1003, 1004, 1005, 1006, 1007, 1008, 1009, 1010})
  void sameSeedSameHistory(long seed) throws IOException {
    History one = new History(seed);
    History other = new History(seed);
    for (int i = 0; i < SCANS; i++) {
      ScanOutcome a = one.next().out();
      ScanOutcome b = other.next().out();
      assertEquals(a, b, "scan " + i);
      if (i % 50 == 0) {
        // records compare doubles by their bits, the account by value: the documents tell both
        assertArrayEquals(SavedState.write(a.state()), SavedState.write(b.state()), "scan " + i);
      }
    }
  }

  /** A chain that goes through the saved document at random scans never differs from the other. */
  @ParameterizedTest
  @ValueSource(longs = {2001, 2002, 2003, 2004, 2005, 2006, 2007, 2008, 2009, 2010})
  void savedAndRestoredItGoesOnAsIfNothingHadHappened(long seed) throws IOException {
    Random random = new Random(seed);
    History history = new History(seed);
    ScanState carried = null;
    for (int i = 0; i < SCANS; i++) {
      Seen seen = history.next();
      ScanState before = seen.start().newProcess() ? seen.before() : carried;
      if (random.nextInt(20) == 0) {
        before = SavedState.read(SavedState.write(before));
      }
      ScanOutcome out = Scan.step(seen.settings(), before, seen.in());
      assertEquals(seen.out(), out, "seed " + seed + ", scan " + i);
      carried = out.state();
    }
  }

  /**
   * S5: with the duty in a person's hand, so that nothing follows the sun, a wall clock that jumps
   * by hours and years changes no output, limit, latch, account or proving time.
   */
  @Test
  void theWallClockMovesNoLimit() throws IOException {
    int on = 0;
    int held = 0;
    for (long seed = 3001; seed <= 3060; seed++) {
      Random random = new Random(seed);
      History history = new History(seed);
      ScanSettings settings = withoutSun(history.settings());
      ScanState state = ScanState.start(settings);
      ScanState shifted = state;
      double jumpS = 0;
      for (int i = 0; i < SCANS; i++) {
        ScanInputs in = byHand(history.next().in(), i == 0);
        jumpS = random.nextInt(20) == 0 ? 1e8 * random.nextGaussian() : jumpS;
        ScanOutcome out = Scan.step(settings, state, in);
        ScanOutcome other =
            Scan.step(settings, shifted, Inputs.withWallClock(in, in.unixTimeS() + jumpS));
        if (limited(out) || limited(other)) {
          break; // the estimate follows the sun, and so does the learned demand that limits
        }
        assertEquals(what(out), what(other), "seed " + seed + ", scan " + i);
        on += out.outputs().chlorine() > 0 ? 1 : 0;
        held += out.permission().held(Output.CHLORINE) ? 1 : 0;
        state = out.state();
        shifted = other.state();
      }
    }
    assertTrue(on > 2000 && held > 2000, "on " + on + ", held " + held);
  }

  private static boolean limited(ScanOutcome out) {
    return out.permission().of(Output.CHLORINE) == Effect.LIMIT;
  }

  private static List<Object> what(ScanOutcome out) {
    return List.of(
        out.outputs(),
        out.measured(),
        out.permission(),
        out.state().measure(),
        out.state().safety(),
        out.state().chlorine(),
        out.state().acid(),
        out.state().alarms());
  }

  /** How old a calibration is goes by the wall clock; it is an alarm and touches no output. */
  private static MeasureSettings withoutDates(MeasureSettings m) {
    return new MeasureSettings(
        m.orp(),
        m.orpOffsetMv(),
        m.ph(),
        m.phCalibration(),
        m.water(),
        m.waterFallbackC(),
        m.flow(),
        m.freshWaterS(),
        m.fitted(),
        CalibrationAge.NOT_TOLD,
        CalibrationAge.NOT_TOLD,
        m.pumpSign());
  }

  /** No pump windows, and a high limit that the estimate, which follows the sun, cannot reach. */
  private static ScanSettings withoutSun(ScanSettings s) {
    SafetyLimits l = s.limits();
    return new ScanSettings(
        withoutDates(s.measure()),
        s.estimate(),
        new ControlSettings(3, 7.4, s.control().zone(), List.of()),
        new SafetyLimits(
            l.orpHighMv(),
            1e9,
            1e9,
            l.phDosingMin(),
            l.phDosingMax(),
            l.waterMinC(),
            l.waterMaxC(),
            l.flowProvingS(),
            l.separationS(),
            l.blindFeedMgL()),
        s.chlorine(),
        s.acid());
  }

  private static ScanInputs byHand(ScanInputs in, boolean first) {
    List<Command.Request> commands = new ArrayList<>();
    if (first) {
      Command manual = new Command.SetMode(Mode.MANUAL, OptionalDouble.of(0.6));
      commands.add(CommandSource.request(manual));
    }
    return new ScanInputs(
        in.elapsedS(),
        in.unixTimeS(),
        in.clockTrusted(),
        in.signals(),
        Map.of(Output.CHLORINE, 1e9, Output.ACID, 1e9),
        in.ledgerFailing(),
        in.overran(),
        in.outputsDriven(),
        commands);
  }
}
