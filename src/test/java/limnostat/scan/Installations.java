package limnostat.scan;

import java.time.ZoneOffset;
import java.util.EnumSet;
import java.util.List;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.Set;
import limnostat.account.DoseCaps;
import limnostat.actuate.OutputSettings;
import limnostat.actuate.OutputSettings.Drive;
import limnostat.control.ControlSettings;
import limnostat.control.ControlSettings.PumpWindow;
import limnostat.estimate.EstimateSettings;
import limnostat.estimate.SlowSettings;
import limnostat.measure.CalibrationAge;
import limnostat.measure.FlowSensor;
import limnostat.measure.MeasureSettings;
import limnostat.measure.PhCalibration;
import limnostat.measure.ProbeSettings;
import limnostat.measure.PumpSign;
import limnostat.measure.Role;
import limnostat.safety.Cause;
import limnostat.safety.ProcessLimits;
import limnostat.safety.RunLimits;
import limnostat.safety.SafetyLimits;
import limnostat.safety.SetpointLimits;
import limnostat.scan.ScanSettings.Channel;
import limnostat.water.ChlorineForm;

/** Invented installations of every kind the daemon can be configured for; all limits vary. */
final class Installations {
  private Installations() {}

  static ScanSettings any(Random random) {
    Set<Role> fitted = EnumSet.noneOf(Role.class);
    for (Role role :
        List.of(
            Role.CELL_A,
            Role.TANK_LOW,
            Role.ACID_TANK_LOW,
            Role.PUMP_ON,
            Role.COVER_CLOSED,
            Role.SOLAR_W_M2)) {
      if (random.nextInt(3) > 0) {
        fitted.add(role);
      }
    }
    double freezeS = random.nextBoolean() ? 900 : 3600;
    return new ScanSettings(
        new MeasureSettings(
            new ProbeSettings(-500, 1200, 5, 0.05, freezeS, 60),
            between(random, -30, 30),
            new ProbeSettings(3, 11, 0.05, 0.0005, freezeS, 60),
            PhCalibration.IDEAL,
            new ProbeSettings(0, 45, 0.2, 0, 0, 60),
            25,
            random.nextBoolean() ? new FlowSensor.Switch() : new FlowSensor.Meter(50, 5000),
            random.nextInt(3) * 60,
            fitted,
            CalibrationAge.NOT_TOLD,
            new CalibrationAge(OptionalDouble.of(History.START_UNIX_S), 90 * 86_400),
            fitted.contains(Role.PUMP_ON)
                ? PumpSign.CONTACT
                : random.nextBoolean() ? PumpSign.REQUEST : PumpSign.NONE),
        new EstimateSettings(
            random.nextBoolean() ? between(random, 5, 12) : between(random, 12, 80),
            46,
            8,
            SlowSettings.configured(
                30, 3400, List.of(ChlorineForm.values()).get(random.nextInt(6)), 1),
            between(random, 0.5, 4),
            2),
        new ControlSettings(
            3,
            7.4,
            ZoneOffset.UTC,
            random.nextInt(3) > 0 ? List.of() : List.of(new PumpWindow(8 * 3600, 20 * 3600))),
        new SafetyLimits(
            between(random, 740, 850),
            between(random, 5, 10),
            between(random, 10, 20),
            6.8,
            8.0,
            10,
            35,
            between(random, 5, 120),
            between(random, 60, 600),
            random.nextBoolean() ? between(random, 0.02, 0.5) : between(random, 0.5, 8),
            new ProcessLimits(
                between(random, 2, 8),
                maybe(random, between(random, 6, 9)),
                maybe(random, 5.5),
                14 * 86_400),
            new RunLimits(1 + random.nextInt(5), between(random, 60, 24 * 3600))),
        chlorine(random),
        random.nextInt(3) == 0 ? Channel.NONE : acid(random),
        new SetpointLimits(
            between(random, 0.3, 1), between(random, 1, 48) * 3600, between(random, 60, 86_400)),
        random.nextInt(4) > 0
            ? Set.of()
            : Set.of(List.of(Cause.values()).get(random.nextInt(Cause.values().length))));
  }

  private static OptionalDouble maybe(Random random, double value) {
    return random.nextBoolean() ? OptionalDouble.of(value) : OptionalDouble.empty();
  }

  private static Channel chlorine(Random random) {
    double hourCapG = between(random, 2, 15);
    return new Channel(
        new OutputSettings(
            drive(random),
            between(random, 120, 3600),
            between(random, 10, 90),
            between(random, 10, 90),
            between(random, 900, 4 * 3600),
            between(random, 60, 900)),
        new DoseCaps(20, hourCapG, hourCapG * between(random, 1.5, 20), between(random, 0.1, 3)));
  }

  private static Channel acid(Random random) {
    double hourCapMl = between(random, 60, 300);
    return new Channel(
        new OutputSettings(
            drive(random),
            between(random, 120, 900),
            between(random, 5, 20),
            between(random, 5, 20),
            1800,
            60),
        new DoseCaps(1500, hourCapMl, hourCapMl * between(random, 1.5, 5), 50));
  }

  private static Drive drive(Random random) {
    return random.nextInt(3) == 0 ? Drive.PROPORTIONAL : Drive.RELAY;
  }

  static double between(Random random, double low, double high) {
    return low + (high - low) * random.nextDouble();
  }
}
