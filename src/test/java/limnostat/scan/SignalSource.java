package limnostat.scan;

import java.util.EnumMap;
import java.util.Map;
import java.util.Random;
import limnostat.measure.FlowSensor;
import limnostat.measure.Role;
import limnostat.measure.Signal;
import limnostat.measure.Signals;

/** All raw signals of a generated history. */
final class SignalSource {
  private static final int MEAN_FLOW_S = 20_000;
  private static final int MEAN_PAUSE_S = 300;

  private final ScanSettings settings;
  private final Random random;
  private final ProbeSource orpMv;
  private final ProbeSource phMv;
  private final ProbeSource waterC;
  private boolean flow = true;
  private boolean stuckCell;
  private boolean deadCell;
  private boolean cellUnread;
  private boolean coverClosed;
  private boolean cellDegrades;
  private boolean cellShorted;

  SignalSource(ScanSettings settings, Random random) {
    this.settings = settings;
    this.random = random;
    double highMv = settings.limits().orpHighMv();
    // Mostly below the setpoint, or nothing would ever be fed; pH −58 mV a unit about 7, so from
    // 8.4 to 6.7, and mostly above its target, or no acid.
    orpMv =
        new ProbeSource(
            highMv - 200, random.nextInt(3) > 0 ? highMv - 20 : highMv + 40, 0.3, random);
    phMv =
        new ProbeSource(
            random.nextInt(3) > 0 ? -58 : -82, random.nextInt(4) > 0 ? -25 : 18, 0.1, random);
    waterC =
        new ProbeSource(
            random.nextInt(4) > 0 ? 12 : 8, random.nextInt(4) > 0 ? 30 : 37, 0.01, random);
  }

  /**
   * @param cell whether the cell carries current by what drives it
   */
  Signals next(double elapsedS, boolean cell) {
    Map<Role, Signal> by = new EnumMap<>(Role.class);
    by.put(Role.ORP_MV, orpMv.next(random, elapsedS));
    by.put(Role.PH_MV, phMv.next(random, elapsedS));
    by.put(Role.WATER_C, waterC.next(random, elapsedS));
    boolean changes = random.nextDouble() * (flow ? MEAN_FLOW_S : MEAN_PAUSE_S) < elapsedS;
    flow = changes != flow;
    by.put(Role.FLOW, flow());
    by.put(Role.PUMP_ON, contact(flow || random.nextInt(10) == 0));
    by.put(Role.TANK_LOW, contact(random.nextInt(500) == 0));
    by.put(Role.ACID_TANK_LOW, contact(random.nextInt(500) == 0));
    coverClosed = random.nextInt(coverClosed ? 20 : 400) == 0 != coverClosed;
    by.put(Role.COVER_CLOSED, contact(coverClosed));
    by.put(Role.SOLAR_W_M2, solar());
    stuckCell = random.nextInt(stuckCell ? 20 : 2000) == 0 != stuckCell;
    deadCell = random.nextInt(deadCell ? 40 : 500) == 0 != deadCell;
    by.put(Role.CELL_A, cell((cell && !deadCell) || stuckCell));
    if (random.nextInt(1000) == 0) {
      by.keySet().removeIf(role -> random.nextBoolean());
    }
    return Signals.of(by);
  }

  private Signal cell(boolean current) {
    cellUnread = random.nextInt(cellUnread ? 10 : 300) == 0 != cellUnread;
    if (cellUnread) {
      return random.nextBoolean()
          ? new Signal.Missing("read failed")
          : new Signal.Analog(Double.NaN);
    }
    cellDegrades = random.nextInt(cellDegrades ? 100 : 2000) == 0 != cellDegrades;
    cellShorted = random.nextInt(cellShorted ? 20 : 3000) == 0 != cellShorted;
    return new Signal.Analog(current ? (cellShorted ? 12 : cellDegrades ? 2 : 5) : 0.02);
  }

  private Signal solar() {
    return new Signal.Analog(
        random.nextInt(100) == 0 ? Double.NaN : Installations.between(random, -100, 1800));
  }

  private Signal flow() {
    if (random.nextInt(2000) == 0) {
      return new Signal.Missing("read failed");
    }
    if (settings.measure().flow() instanceof FlowSensor.Meter) {
      return switch (random.nextInt(3000)) {
        case 0 -> new Signal.Analog(Double.NaN);
        case 1 -> new Signal.Contact(true);
        default ->
            !flow && random.nextInt(10) == 0
                ? new Signal.Analog(Double.POSITIVE_INFINITY)
                : new Signal.Analog(flow ? 150 : 3);
      };
    }
    return random.nextInt(3000) == 0 ? new Signal.Analog(1) : new Signal.Contact(flow);
  }

  private Signal contact(boolean closed) {
    return random.nextInt(2000) == 0
        ? new Signal.Missing("read failed")
        : new Signal.Contact(closed);
  }
}
