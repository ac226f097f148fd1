package limnostat.season;

import java.util.Optional;
import limnostat.actuate.Outputs;
import limnostat.measure.Role;
import limnostat.measure.Signals;
import limnostat.scan.ScanSettings;

/** A switch on ORP: on 5 mV below the setpoint, off 5 mV above it. */
final class OrpOnOff implements Contestant {
  private static final double HYSTERESIS_MV = 5;

  private final Relays relays;
  private final OrpSetpoint setpoint;
  private boolean on;

  OrpOnOff(ScanSettings configured) {
    this.relays = new Relays(configured);
    this.setpoint = new OrpSetpoint(configured.control().freeChlorineTargetMgL());
  }

  @Override
  public Outputs step(double unixTimeS, double elapsedS, Signals signals, Optional<KitTest> test) {
    relays.see(signals, elapsedS);
    if (relays.freshWater()) {
      double orpMv = Relays.analog(signals, Role.ORP_MV);
      double shortMv = setpoint.at(orpMv, test) - orpMv;
      on = on ? shortMv > -HYSTERESIS_MV : shortMv > HYSTERESIS_MV;
    }
    return relays.drive(on ? 1 : 0, signals, unixTimeS, elapsedS);
  }
}
