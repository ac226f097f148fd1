package limnostat.daemon;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import limnostat.control.Mode;
import limnostat.estimate.Tested;
import limnostat.estimate.WaterTest;
import limnostat.ledger.Moment;
import limnostat.measure.Signals;
import limnostat.scan.AlarmDetails;
import limnostat.scan.Command;
import limnostat.scan.Scan;
import limnostat.scan.ScanEvent;
import limnostat.scan.ScanInputs;
import limnostat.scan.ScanOutcome;
import limnostat.scan.ScanState;
import limnostat.scan.TestSettings;

/** Outcomes of a scan with chosen events, for tests of what is done with them. */
public final class Outcomes {
  private Outcomes() {}

  static final ScanState START = ScanState.start(TestSettings.pool());

  private static final ScanOutcome QUIET =
      Scan.step(
          TestSettings.pool(),
          START,
          new ScanInputs(0, 1.7e9, true, Signals.of(Map.of()), Map.of(), false, true, List.of()));

  static ScanOutcome with(ScanState state, ScanEvent... events) {
    return new ScanOutcome(
        QUIET.outputs(),
        state,
        QUIET.measured(),
        QUIET.estimate(),
        QUIET.demand(),
        QUIET.permission(),
        List.of(events),
        new AlarmDetails(TestSettings.pool(), state, QUIET.measured(), QUIET.estimate()));
  }

  static ScanOutcome with(ScanEvent... events) {
    return with(QUIET.state(), events);
  }

  static Moment at(double monotonicS) {
    return new Moment(monotonicS, 1.7e9 + monotonicS, true, "boot");
  }

  public static Command.Request mode() {
    return new Command.Request(
        Optional.of("a7"),
        "mode",
        "mqtt",
        "{\"type\":\"mode\"}",
        new Command.SetMode(Mode.OFF, OptionalDouble.empty()));
  }

  static Command.Request test() {
    return new Command.Request(
        Optional.empty(),
        "test_result",
        "mqtt",
        "{\"ph\":7.4}",
        new Command.Test(WaterTest.EMPTY.with(Tested.PH, 7.4)));
  }
}
