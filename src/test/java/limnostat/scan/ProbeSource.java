package limnostat.scan;

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
    JUMPING,
    /** Alive by its noise, but it shows nothing of the water. */
    DEAD,
    /** It shows other water, or is off. */
    SHIFTED
  }

  private static final Fault[] FAULTS = Fault.values();

  /** Mean time between faults of a probe, s, and their mean lengths. */
  private static final double APART_S = 18_000;

  private static final double SHORT_S = 1200;

  private static final double LONG_S = 12_000;

  private static final double DEAD_S = 60_000;

  private final double low;
  private final double high;
  private final double noise;
  private final String begins;
  private final String ends;
  private final double lastsS;
  private double value;
  private Fault fault = Fault.NONE;
  private int faults = FAULTS.length - 1; // the last is not for every probe

  ProbeSource(String what, double low, double high, double noise, Chance chance) {
    begins = what + " fails";
    ends = what + " is mended";
    this.low = low;
    this.high = high;
    this.noise = noise;
    lastsS = chance.nextInt(3) == 0 ? LONG_S : SHORT_S;
    this.value = Installations.between(chance, low, high);
  }

  /** It never showed anything of the water. */
  void dead() {
    fault = Fault.DEAD;
  }

  /** It may also show other water than the pool's. */
  void mayShift() {
    faults = FAULTS.length;
  }

  Signal next(Chance chance, double elapsedS) {
    double wander = noise * StrictMath.sqrt(Math.min(600, elapsedS)) * chance.nextGaussian();
    if (fault == Fault.NONE) {
      if (chance.event(begins, elapsedS / APART_S)) {
        fault = FAULTS[1 + chance.nextInt(faults - 1)];
      }
    } else if (chance.event(ends, elapsedS / (fault == Fault.DEAD ? DEAD_S : lastsS))) {
      fault = Fault.NONE;
    }
    if (fault != Fault.FROZEN && fault != Fault.DEAD) {
      value = Math.max(low, Math.min(high, value + wander));
    }
    return switch (fault) {
      case NONE -> new Signal.Analog(value + noise * chance.nextGaussian());
      case MISSING -> new Signal.Missing("read failed");
      case NOT_A_NUMBER -> new Signal.Analog(Double.NaN);
      case INFINITE -> new Signal.Analog(1 / (chance.nextBoolean() ? 0.0 : -0.0));
      case OUT_OF_RANGE -> new Signal.Analog((chance.nextBoolean() ? 1 : -1) * 5000);
      case FROZEN -> new Signal.Analog(value);
      case SHIFTED -> new Signal.Analog(value + 0.7 * (high - low) + noise * chance.nextGaussian());
      case DEAD -> new Signal.Analog(value + 0.3 * (chance.nextDouble() - 0.5));
      case JUMPING ->
          new Signal.Analog(Installations.between(chance, 2 * low - high, 2 * high - low));
    };
  }
}
