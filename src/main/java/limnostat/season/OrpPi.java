package limnostat.season;

import java.util.Optional;
import limnostat.actuate.Outputs;
import limnostat.measure.Role;
import limnostat.measure.Signals;
import limnostat.scan.ScanSettings;

/**
 * PI control on ORP with the program's gain and integral time. It starts at the installer's guess
 * of the demand. The integral is frozen while the output cannot act, and is limited to 0–1.
 */
final class OrpPi implements Contestant {
  /** Duty per mV of error (engineering judgement). */
  private static final double GAIN_PER_MV = 0.05;

  private static final double INTEGRAL_TIME_S = 12 * 3600;

  private final Relays relays;
  private final OrpSetpoint setpoint;
  private double integral;
  private double duty;

  OrpPi(ScanSettings configured) {
    this.relays = new Relays(configured);
    this.setpoint = new OrpSetpoint(configured.control().freeChlorineTargetMgL());
    this.integral = FixedOutput.guess(configured);
    this.duty = integral;
  }

  @Override
  public Outputs step(double unixTimeS, double elapsedS, Signals signals, Optional<KitTest> test) {
    relays.see(signals, elapsedS);
    if (relays.freshWater()) {
      double orpMv = Relays.analog(signals, Role.ORP_MV);
      double proportional = GAIN_PER_MV * (setpoint.at(orpMv, test) - orpMv);
      duty = clip(proportional + integral);
      integral = clip(integral + proportional * elapsedS / INTEGRAL_TIME_S);
    }
    return relays.drive(duty, signals, unixTimeS, elapsedS);
  }

  private static double clip(double duty) {
    return StrictMath.max(0, StrictMath.min(1, duty));
  }
}
