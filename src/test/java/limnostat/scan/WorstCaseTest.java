package limnostat.scan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Stream;
import limnostat.account.DoseCaps;
import limnostat.actuate.Output;
import limnostat.control.ControlSettings;
import limnostat.control.ControlSettings.PumpWindow;
import limnostat.estimate.Tested;
import limnostat.estimate.WaterTest;
import limnostat.measure.Role;
import limnostat.plant.Bathers;
import limnostat.plant.ChlorineLoss;
import limnostat.plant.PlantFault;
import limnostat.plant.PlantSettings;
import limnostat.plant.Pool;
import limnostat.scan.ScanSettings.Channel;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * The worst case of each fault, by the budgets as shipped: a pool has used 2 to 3 mg/L a day, a
 * fault begins, from then on its water uses next to nothing, and nobody comes for twenty days. What
 * water loses at the least is 5 % a day: a third of what a clean pool without bathers was found to
 * lose (Wojtowicz, see {@code ChlorineLoss}). {@code interlocks.md} has the same figures.
 */
@Tag("slow")
class WorstCaseTest {
  private static final double STEP_S = 60;
  private static final double START = 1_782_864_000; // 2026-07-01T00:00:00Z
  private static final double DAY_S = 86_400;
  private static final double LEAST_LOSS_PER_DAY = 0.05;

  private final ScanSettings settings = settings();
  private Pool pool = new Pool(plant().withWater(3, 30, 3400), START);
  private ScanState state = ScanState.start(settings);
  private double nowS = START;

  private record Row(String name, Function<PlantFault.Span, PlantFault> fault, double mostMgL) {
    @Override
    public String toString() {
      return name;
    }
  }

  static Stream<Row> rows() {
    return Stream.of(
        new Row("nothing fails", span -> new PlantFault.TankEmpty(Output.ACID, span), 10),
        new Row("ORP lead cut", span -> new PlantFault.Unplugged(Role.ORP_MV, span), 10),
        new Row("pH lead cut", span -> new PlantFault.Unplugged(Role.PH_MV, span), 10),
        new Row("thermometer gone", span -> new PlantFault.Unplugged(Role.WATER_C, span), 10),
        new Row("ORP answers nothing", span -> new PlantFault.Deaf(Role.ORP_MV, 1, span), 10),
        new Row("ORP 80 mV too low at once", s -> new PlantFault.Offset(Role.ORP_MV, -80, s), 10),
        new Row("ORP 300 mV too low at once", s -> new PlantFault.Offset(Role.ORP_MV, -300, s), 10),
        new Row(
            "ORP falls by 2 mV an hour",
            s -> new PlantFault.Ramp(Role.ORP_MV, -2 * 24 * 20, 20 * DAY_S, s),
            10),
        new Row(
            "ORP falls by 5 mV a day",
            s -> new PlantFault.Ramp(Role.ORP_MV, -5 * 20, 20 * DAY_S, s),
            10));
  }

  private static PlantSettings plant() {
    return PlantSettings.domestic(1).withLabelGH(20);
  }

  private static ChlorineLoss.Settings resting(ChlorineLoss.Settings loss) {
    return new ChlorineLoss.Settings(
        0,
        0,
        0,
        loss.attenuationPerM(),
        LEAST_LOSS_PER_DAY,
        0,
        loss.doublingC(),
        0,
        loss.loadHours(),
        loss.combinedShare(),
        loss.combinedPerDay());
  }

  private static ScanSettings settings() {
    ScanSettings home = TestSettings.pool();
    return new ScanSettings(
        home.measure(),
        home.estimate(),
        new ControlSettings(3, 7.4, ZoneOffset.UTC, List.of(new PumpWindow(8 * 3600, 18 * 3600))),
        home.limits(),
        new Channel(home.chlorine().output(), new DoseCaps(20, 100, 1000, 1)),
        Channel.NONE);
  }

  private void live(double days) {
    for (double s = 0; s < days * DAY_S; s += STEP_S) {
      step(List.of());
    }
  }

  private void test() {
    step(
        List.of(
            CommandSource.request(
                new Command.Test(
                    WaterTest.EMPTY
                        .with(Tested.FREE_CHLORINE, pool.truth().freeChlorineMgL())
                        .with(Tested.CYANURIC_ACID, pool.truth().cyanuricAcidMgL())))));
  }

  private void step(List<Command.Request> commands) {
    ScanOutcome out =
        Scan.step(
            settings,
            state,
            new ScanInputs(
                STEP_S,
                nowS,
                true,
                pool.signals(),
                Map.of(Output.CHLORINE, state.chlorine().account().requested()),
                false,
                true,
                commands));
    state = out.state();
    nowS += STEP_S;
    pool.advance(nowS, out.outputs());
  }

  @ParameterizedTest
  @MethodSource("rows")
  void whateverFailsFreeChlorineStaysBelowWhatIsStated(Row row) {
    for (int day = 0; day < 6; day++) {
      live(0.5);
      test();
      live(0.5);
    }
    PlantSettings idle = plant().withLoss(resting(plant().loss()));
    pool =
        new Pool(
            idle.withBathers(new Bathers.Settings(0, 1, 5.5))
                .withWater(pool.truth().freeChlorineMgL(), 30, 3400),
            nowS);
    pool.inject(row.fault.apply(new PlantFault.Span(nowS, nowS + 20 * DAY_S)));
    double highestMgL = 0;
    for (int hour = 0; hour < 20 * 24; hour++) {
      live(1 / 24.0);
      highestMgL = Math.max(highestMgL, pool.truth().freeChlorineMgL());
    }
    System.out.printf("%s: at most %.1f mg/L%n", row.name, highestMgL);
    assertTrue(highestMgL < row.mostMgL, row + ": " + highestMgL + " mg/L");
  }

  @Test
  void thePageHasEachOfThem() throws IOException {
    String page = Files.readString(Path.of("src", "site", "markdown", "interlocks.md"));
    List<String> missing =
        rows().map(Row::name).filter(name -> !page.contains("| " + name + " |")).toList();
    assertEquals(List.of(), missing);
  }
}
