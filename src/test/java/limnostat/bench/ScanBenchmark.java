package limnostat.bench;

import java.nio.charset.StandardCharsets;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import limnostat.actuate.Output;
import limnostat.measure.Role;
import limnostat.measure.Signal;
import limnostat.measure.Signals;
import limnostat.scan.Scan;
import limnostat.scan.ScanInputs;
import limnostat.scan.ScanOutcome;
import limnostat.scan.ScanSettings;
import limnostat.scan.ScanState;
import limnostat.scan.TestSettings;
import limnostat.wire.InputLine;
import limnostat.wire.StateDocument;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/**
 * What one scan costs, and what the JSON of {@code bench} costs beside it. DEVELOPERS.md has the
 * command.
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Warmup(iterations = 3, time = 2)
@Measurement(iterations = 5, time = 2)
@Fork(1)
public class ScanBenchmark {
  private static final double STEP_S = 10;

  private final ScanSettings settings = TestSettings.pool();
  private ScanState state = ScanState.start(settings);
  private double t = 1_782_864_000;
  private long scans;
  private ScanOutcome outcome = scan();

  /** The whole core, with signals that move. */
  @Benchmark
  public final ScanOutcome scan() {
    t += STEP_S;
    double wander = Math.sin(scans++ * 0.1);
    Map<Role, Signal> signals = new EnumMap<>(Role.class);
    signals.put(Role.ORP_MV, new Signal.Analog(695 + 5 * wander));
    signals.put(Role.PH_MV, new Signal.Analog(-29 + wander));
    signals.put(Role.WATER_C, new Signal.Analog(25 + 0.1 * wander));
    signals.put(Role.FLOW, new Signal.Contact(true));
    signals.put(Role.CELL_A, new Signal.Analog(state.chlorine().modulator().on() ? 6 : 0));
    outcome =
        Scan.step(
            settings,
            state,
            new ScanInputs(
                STEP_S,
                t,
                true,
                Signals.of(signals),
                Map.of(
                    Output.CHLORINE, state.chlorine().account().requested(),
                    Output.ACID, state.acid().account().requested()),
                false,
                true,
                List.of()));
    state = outcome.state();
    return outcome;
  }

  @Benchmark
  public InputLine readLine() throws InputLine.Malformed {
    return InputLine.read(LINE);
  }

  @Benchmark
  public byte[] writeLine() {
    return StateDocument.benchLine(outcome, t);
  }

  private static final byte[] LINE =
      ("{\"t\":1782864010.000,\"in\":{\"orp_mv\":691.23,\"ph_mv\":-29.58,\"water_c\":25.013,"
              + "\"flow\":true,\"pump_on\":true}}")
          .getBytes(StandardCharsets.UTF_8);
}
