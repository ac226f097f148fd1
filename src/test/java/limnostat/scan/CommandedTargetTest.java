package limnostat.scan;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import limnostat.measure.Signals;
import limnostat.safety.HardBounds;
import limnostat.safety.SafetyLimits;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A target from the network stays within the installer's limit and the program's bound. */
class CommandedTargetTest {
  @ParameterizedTest
  @CsvSource({
    "10, 8, 8", // the program's bound of 8 mg/L
    "10, 8.01, 3",
    "5, 5, 5", // the installer's limit
    "5, 5.01, 3",
    "5, 1, 1", // 22 CCR 65529 (California) [memory]
    "5, 0.99, 3",
    "5, -1, 3"
  })
  void staysWithinTheNarrower(double highMgL, double askedMgL, double targetMgL) {
    ScanSettings pool = TestSettings.pool();
    SafetyLimits limits =
        new SafetyLimits(
            800, highMgL, HardBounds.SUPERCHLORINATION_MG_L, 6.8, 8.0, 10, 40, 60, 300, 3600);
    ScanSettings settings =
        new ScanSettings(
            pool.measure(), pool.estimate(), pool.control(), limits, pool.chlorine(), pool.acid());
    ScanOutcome outcome =
        Scan.step(
            settings,
            ScanState.start(settings),
            new ScanInputs(
                0,
                1.7e9,
                true,
                Signals.of(Map.of()),
                Map.of(),
                false,
                true,
                List.of(
                    new Command.Request(
                        Optional.empty(),
                        "target",
                        "test",
                        "{}",
                        new Command.SetTarget(askedMgL)))));
    assertEquals(targetMgL, outcome.state().control().targetMgL());
  }
}
