package limnostat.scan;

import java.util.Random;
import limnostat.measure.Signal;

/** A probe's raw signal: a wandering good value, or one of the ways in which a signal is bad. */
final class ProbeSource {
  enum Fault {
    NONE,
    MISSING,
    NOT_A_NUMBER,
    INFINITE,
    OUT_OF_RANGE,
    FROZEN,
    JUMPING
  }

  private final double low;
  private final double high;
  private final double noise;
  private double value;
  private Fault fault = Fault.NONE;
  private double faultLeftS;

  ProbeSource(double low, double high, double noise, Random random) {
    this.low = low;
    this.high = high;
    this.noise = noise;
    this.value = Installations.between(random, low, high);
  }

  Signal next(Random random, double elapsedS) {
    double wander = noise * StrictMath.sqrt(Math.min(600, elapsedS)) * random.nextGaussian();
    faultLeftS -= elapsedS;
    if (faultLeftS < 0) {
      boolean begins = fault == Fault.NONE && random.nextInt(3) == 0;
      fault = begins ? Fault.values()[1 + random.nextInt(6)] : Fault.NONE;
      faultLeftS = -StrictMath.log(1 - random.nextDouble()) * (begins ? 1200 : 6000);
    }
    if (fault != Fault.FROZEN) {
      value = Math.max(low, Math.min(high, value + wander));
    }
    return switch (fault) {
      case NONE -> new Signal.Analog(value + noise * random.nextGaussian());
      case MISSING -> new Signal.Missing("read failed");
      case NOT_A_NUMBER -> new Signal.Analog(Double.NaN);
      case INFINITE -> new Signal.Analog(1 / (random.nextBoolean() ? 0.0 : -0.0));
      case OUT_OF_RANGE -> new Signal.Analog((random.nextBoolean() ? 1 : -1) * 5000);
      case FROZEN -> new Signal.Analog(value);
      case JUMPING ->
          new Signal.Analog(Installations.between(random, 2 * low - high, 2 * high - low));
    };
  }
}
