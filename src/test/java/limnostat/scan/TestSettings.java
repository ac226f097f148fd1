package limnostat.scan;

import java.time.ZoneOffset;
import java.util.List;
import java.util.Set;
import limnostat.account.DoseCaps;
import limnostat.actuate.OutputSettings;
import limnostat.actuate.OutputSettings.Drive;
import limnostat.control.ControlSettings;
import limnostat.measure.FlowSensor;
import limnostat.measure.MeasureSettings;
import limnostat.measure.PhCalibration;
import limnostat.measure.ProbeSettings;
import limnostat.measure.Role;
import limnostat.rig.Fixtures;
import limnostat.safety.SafetyLimits;
import limnostat.scan.ScanSettings.Channel;

/** An invented installation for tests: a 50 m³ salt pool with an acid feeder. */
public final class TestSettings {
  private TestSettings() {}

  public static ScanSettings pool() {
    return new ScanSettings(
        new MeasureSettings(
            new ProbeSettings(-500, 1200, 5, 0.05, 3600, 60),
            0,
            new ProbeSettings(3, 11, 0.05, 0.0005, 3600, 60),
            PhCalibration.IDEAL,
            new ProbeSettings(0, 45, 0.2, 0, 0, 60),
            25,
            new FlowSensor.Switch(),
            120,
            Set.of(Role.CELL_A)),
        Fixtures.SALT_POOL,
        new ControlSettings(3, 7.4, ZoneOffset.UTC, List.of()),
        new SafetyLimits(800, 5, 10, 6.8, 8.0, 10, 40, 60, 300, 5),
        new Channel(
            new OutputSettings(Drive.RELAY, 600, 60, 60, 4 * 3600, 600),
            new DoseCaps(20, 15, 150, 1)),
        new Channel(
            new OutputSettings(Drive.RELAY, 600, 10, 10, 1800, 60),
            new DoseCaps(1500, 300, 1000, 50)));
  }
}
