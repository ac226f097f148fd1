package limnostat.scan;

import java.util.EnumMap;
import java.util.Map;
import limnostat.measure.FlowSensor;
import limnostat.measure.Role;
import limnostat.measure.Signal;
import limnostat.measure.Signals;

/** All raw signals of a generated history. */
final class SignalSource {
  private static final double MEAN_FLOW_S = 20_000;
  private static final double MEAN_PAUSE_S = 300;

  private final ScanSettings settings;
  private final Chance chance;
  private final ProbeSource orpMv;
  private final ProbeSource phMv;
  private final ProbeSource waterC;
  private final Turn stuckFlow = new Turn("flow switch sticks", 1000, 300);
  private final Turn stuckCell = new Turn("cell's relay sticks", 2000, 60);
  private final Turn deadCell = new Turn("dead cell", 500, 40);
  private final Turn unreadCell = new Turn("cell's current unread", 300, 10);
  private final Turn coverClosed = new Turn("cover closed", 400, 20);
  private final Turn degradedCell = new Turn("cell degrades", 2000, 100);
  private final Turn shortedCell = new Turn("cell shorted", 3000, 20);
  private boolean flow = true;

  SignalSource(ScanSettings settings, Chance chance) {
    this.settings = settings;
    this.chance = chance;
    double highMv = settings.limits().orpHighMv();
    // Mostly below the setpoint, or nothing would ever be fed; pH −58 mV a unit about 7, so from
    // 8.4 to 6.7, and mostly above its target, or no acid.
    orpMv =
        new ProbeSource(
            "ORP", highMv - 200, chance.nextInt(3) > 0 ? highMv - 20 : highMv + 40, 0.3, chance);
    phMv =
        new ProbeSource(
            "pH", chance.nextInt(3) > 0 ? -58 : -82, chance.nextInt(4) > 0 ? -25 : 18, 0.1, chance);
    waterC =
        new ProbeSource(
            "thermometer",
            chance.nextInt(4) > 0 ? 12 : 8,
            chance.nextInt(4) > 0 ? 30 : 37,
            0.01,
            chance);
    waterC.mayShift();
  }

  /** An ORP electrode, or its front end, that is dead from the beginning. */
  void orpDead() {
    orpMv.dead();
  }

  /**
   * @param cell whether the cell carries current by what drives it
   */
  Signals next(double elapsedS, boolean cell) {
    Map<Role, Signal> by = new EnumMap<>(Role.class);
    by.put(Role.ORP_MV, orpMv.next(chance, elapsedS));
    by.put(Role.PH_MV, phMv.next(chance, elapsedS));
    by.put(Role.WATER_C, waterC.next(chance, elapsedS));
    flow =
        chance.event(
                flow ? "pump stops" : "pump starts", elapsedS / (flow ? MEAN_FLOW_S : MEAN_PAUSE_S))
            != flow;
    by.put(Role.FLOW, flow(stuckFlow.next(chance) || flow));
    by.put(
        Role.PUMP_ON, contact("pump unread", flow || chance.event("pump on, valve closed", 0.1)));
    by.put(Role.TANK_LOW, contact("tank unread", chance.event("tank low", 0.002)));
    by.put(Role.ACID_TANK_LOW, contact("acid tank unread", chance.event("acid tank low", 0.002)));
    by.put(Role.COVER_CLOSED, contact("cover unread", coverClosed.next(chance)));
    by.put(Role.SOLAR_W_M2, solar());
    boolean current = cell && !deadCell.next(chance);
    by.put(Role.CELL_A, cell(stuckCell.next(chance) || current));
    if (chance.event("signals lost", 0.001)) {
      by.keySet().removeIf(role -> chance.nextBoolean());
    }
    return Signals.of(by);
  }

  private Signal cell(boolean current) {
    boolean unread = unreadCell.next(chance);
    boolean degraded = degradedCell.next(chance);
    boolean shorted = shortedCell.next(chance);
    if (unread) {
      return chance.nextBoolean()
          ? new Signal.Missing("read failed")
          : new Signal.Analog(Double.NaN);
    }
    return new Signal.Analog(current ? (shorted ? 12 : degraded ? 2 : 5) : 0.02);
  }

  private Signal solar() {
    return new Signal.Analog(
        chance.event("sun unread", 0.01) ? Double.NaN : Installations.between(chance, -100, 1800));
  }

  private Signal flow(boolean moving) {
    if (chance.event("flow unread", 1 / 2000.0)) {
      return new Signal.Missing("read failed");
    }
    boolean wrongKind = chance.event("flow of the wrong kind", 1 / 3000.0);
    if (settings.measure().flow() instanceof FlowSensor.Meter) {
      if (wrongKind) {
        return new Signal.Contact(true);
      }
      if (chance.event("flow not a number", 1 / 3000.0)) {
        return new Signal.Analog(Double.NaN);
      }
      return !moving && chance.nextInt(10) == 0
          ? new Signal.Analog(Double.POSITIVE_INFINITY)
          : new Signal.Analog(moving ? 150 : 3);
    }
    return wrongKind ? new Signal.Analog(1) : new Signal.Contact(moving);
  }

  private Signal contact(String what, boolean closed) {
    return chance.event(what, 1 / 2000.0)
        ? new Signal.Missing("read failed")
        : new Signal.Contact(closed);
  }
}
