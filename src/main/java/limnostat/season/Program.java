package limnostat.season;

import java.util.Map;
import java.util.Optional;
import limnostat.actuate.Output;
import limnostat.actuate.Outputs;
import limnostat.control.Superchlorination;
import limnostat.estimate.Estimate;
import limnostat.estimate.Tested;
import limnostat.estimate.WaterTest;
import limnostat.measure.Signals;
import limnostat.scan.Command;
import limnostat.scan.Scan;
import limnostat.scan.ScanInputs;
import limnostat.scan.ScanOutcome;
import limnostat.scan.ScanSettings;
import limnostat.scan.ScanState;

/** The program itself: the daemon's scan, with a ledger that confirms at once. */
final class Program implements Contestant {
  private final ScanSettings settings;
  private ScanState state;
  private Optional<ScanOutcome> last = Optional.empty();

  Program(ScanSettings settings) {
    this.settings = settings;
    this.state = ScanState.start(settings);
  }

  @Override
  public Outputs step(double unixTimeS, double elapsedS, Signals signals, Optional<KitTest> test) {
    ScanOutcome outcome =
        Scan.step(
            settings,
            state,
            new ScanInputs(
                elapsedS,
                unixTimeS,
                true,
                signals,
                Map.of(
                    Output.CHLORINE, state.chlorine().account().requested(),
                    Output.ACID, state.acid().account().requested()),
                false,
                true,
                test.map(Program::entered).stream().toList()));
    state = outcome.state();
    last = Optional.of(outcome);
    return outcome.outputs();
  }

  private static Command.Request entered(KitTest test) {
    WaterTest water =
        WaterTest.EMPTY
            .with(Tested.FREE_CHLORINE, test.freeChlorineMgL())
            .with(Tested.PH, test.ph())
            .with(Tested.CYANURIC_ACID, test.cyanuricAcidMgL());
    return new Command.Request(
        Optional.empty(), "test_result", "owner", "{}", new Command.Test(water));
  }

  @Override
  public Optional<Estimate> estimate() {
    return last.map(ScanOutcome::estimate);
  }

  /** The outcome of the last scan. */
  ScanOutcome lastOutcome() {
    return last.orElseThrow();
  }

  @Override
  public Optional<Boolean> calls() {
    return last.map(LowChlorineAlarm::calls);
  }

  @Override
  public Optional<ScanOutcome> outcome() {
    return last;
  }

  @Override
  public boolean asks() {
    return true;
  }

  @Override
  public boolean testDue() {
    return last.map(TestDue::of).orElse(false);
  }

  @Override
  public boolean superchlorinating() {
    Superchlorination raise = state.control().superchlorination();
    return raise.running() || raise.reentry();
  }
}
