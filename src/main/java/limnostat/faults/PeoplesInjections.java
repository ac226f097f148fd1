package limnostat.faults;

import static limnostat.faults.Injection.chlorine;

import java.util.List;
import limnostat.measure.Role;
import limnostat.plant.PlantFault;
import limnostat.safety.Cause;
import limnostat.scan.Command;

/** Faults that people cause: what they do, test, write to the file, or leave undone. */
final class PeoplesInjections {
  private static final double DAY_S = 86_400;
  private static final double TWO_HOURS_S = 7200;
  private static final double NAN = Double.NaN;

  private PeoplesInjections() {}

  static List<Injection> all() {
    return List.of(
        chlorine(
            Cause.FUNCTION_CHECK,
            "a person takes a probe out",
            b -> {
              b.asks(new Command.FunctionCheck(1800));
              b.breaks(span -> new PlantFault.Unplugged(Role.ORP_MV, span), 1200);
            },
            1,
            Injection::nothing),
        new Injection(
            Cause.PH_DISAGREES,
            "pH 0.4 too high, a test says so",
            Setup.ACID,
            b -> {
              b.breaks(span -> new PlantFault.Offset(Role.PH_MV, -23.7, span), 1200);
              b.scan(60);
              b.testedPh();
            },
            1,
            b -> {
              b.scan(1200);
              b.testedPh();
            }),
        chlorine(
            Cause.PROBE_WORN,
            "calibration finds a slope of 92 %",
            b -> b.restarts(configured -> configured.withPhSlope(0.92)),
            1,
            b -> b.restarts(configured -> configured)),
        chlorine(
            Cause.CALIBRATION_DUE,
            "pH calibrated 91 days ago",
            b ->
                b.restarts(
                    configured ->
                        configured.withPhCalibrated(configured.phCalibrated() - 91 * DAY_S)),
            1,
            b -> b.restarts(configured -> configured)),
        chlorine(
            Cause.CONFIGURATION_CHANGED,
            "another limit in the file",
            b -> b.restarts(configured -> configured.withTestOverdueS(20 * DAY_S)),
            1,
            Injection::nothing),
        new Injection(
            Cause.TEST_OVERDUE,
            "no test for the 2 h of the limit",
            Setup.CHLORINE.with(Setup.CHLORINE.configured().withTestOverdueS(TWO_HOURS_S)),
            Injection::nothing,
            TWO_HOURS_S + 60,
            b -> b.tested(3, NAN, NAN)),
        chlorine(
            Cause.FREE_CHLORINE_HIGH,
            "a test of 8 mg/L",
            b -> b.tested(8, NAN, NAN),
            1,
            b -> {
              b.tested(1, NAN, NAN);
              b.scan(600);
              b.tested(1, NAN, NAN);
            }),
        chlorine(
            Cause.TARGET_LOW_FOR_STABILISER,
            "a test of stabiliser, 80 mg/L",
            b -> b.tested(NAN, NAN, 80),
            1,
            b -> b.tested(NAN, NAN, 30)),
        chlorine(
            Cause.STABILISER_HIGH,
            "a test of stabiliser, 130 mg/L",
            b -> b.tested(NAN, NAN, 130),
            1,
            b -> b.tested(NAN, NAN, 30)),
        chlorine(
            Cause.TEST_DUE,
            "two tests that contradict",
            b -> {
              b.tested(2.1, NAN, NAN);
              b.scan(600);
              b.tested(4.7, NAN, NAN);
            },
            600,
            b -> b.tested(2.1, NAN, NAN)),
        chlorine(
            Cause.CHLORINE_USED_UP,
            "a test of 0.2 mg/L",
            b -> b.tested(0.2, NAN, NAN),
            1,
            b -> b.tested(1.5, NAN, NAN)),
        chlorine(
            Cause.COMBINED_CHLORINE_HIGH,
            "a test of 0.8 mg/L combined",
            b -> b.tested(NAN, 0.8, NAN),
            1,
            b -> b.tested(NAN, 0.2, NAN)));
  }
}
