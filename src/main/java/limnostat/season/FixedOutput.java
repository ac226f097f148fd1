package limnostat.season;

import java.util.Optional;
import limnostat.actuate.Outputs;
import limnostat.measure.Signals;
import limnostat.scan.ScanSettings;

/**
 * A dial: the same duty whenever the pump runs. It starts at the installer's guess of the demand.
 * At each test a person turns it by the ratio of target to result, by a factor of at most 1.5 up or
 * down.
 */
final class FixedOutput implements Contestant {
  private static final double TURN_MAX = 1.5;

  private final ScanSettings configured;
  private final Relays relays;
  private double duty;

  FixedOutput(ScanSettings configured) {
    this.configured = configured;
    this.relays = new Relays(configured);
    this.duty = guess(configured);
  }

  /** The duty that covers the guessed demand within the pump's hours. */
  static double guess(ScanSettings configured) {
    double demandG = configured.estimate().demandMgLDay() * configured.estimate().volumeM3();
    double mostG = configured.chlorine().caps().ratePerH() * configured.control().pumpS() / 3600;
    return StrictMath.min(1, demandG / mostG);
  }

  @Override
  public Outputs step(double unixTimeS, double elapsedS, Signals signals, Optional<KitTest> test) {
    test.ifPresent(this::turn);
    relays.see(signals, elapsedS);
    return relays.drive(duty, signals, unixTimeS, elapsedS);
  }

  private void turn(KitTest test) {
    double ratio =
        configured.control().freeChlorineTargetMgL() / StrictMath.max(0.1, test.freeChlorineMgL());
    double turned = duty * StrictMath.max(1 / TURN_MAX, StrictMath.min(TURN_MAX, ratio));
    duty = StrictMath.max(0.02, StrictMath.min(1, turned));
  }
}
