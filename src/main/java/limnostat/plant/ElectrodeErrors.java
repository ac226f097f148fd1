package limnostat.plant;

import java.util.Random;

/**
 * The errors of an ORP electrode, in addition to its logarithmic response to HOCl. Platinum settles
 * at a mixed potential, to which other couples, its own oxide, films and stray currents contribute
 * (James, Copeland and Lytle saw 218 mV between two of the same kind in the same water [checked]).
 */
public final class ElectrodeErrors {
  private static final double DAY_S = 86_400;

  /**
   * An electrode that has fallen recovers within about this time once there is chlorine
   * [judgement].
   */
  private static final double RISE_S = 2 * 3600;

  /** A high dose charges the surface within about this time [judgement]. */
  private static final double CHARGE_S = 3 * 3600;

  /**
   * The error from a run disappears within about this time after the probe is cleaned [judgement].
   */
  private static final double CLEANED_S = 6 * 3600;

  private final Settings settings;
  private final boolean none;
  private final Random random;
  private final Decay slow;
  private final Decay fall;
  private final Decay rise = new Decay(RISE_S);
  private final Decay charge = new Decay(CHARGE_S);
  private final Decay discharge;
  private final Decay cleaned = new Decay(CLEANED_S);

  private double ageDays;
  private double walkMv;
  private double slowMv;
  private double fallenMv;
  private double rememberedMv;
  private double runMv;
  private double mv;

  /**
   * Every value is 0, or never, if the electrode does not have this error.
   *
   * @param backgroundHoclMgL effect of other couples as equivalent HOCl; it flattens the response
   *     at low chlorine: {@code E = a + b log10(HOCl + background)}, mg/L
   * @param temperatureMvC mV per degree above 25 °C, in addition to the effect on the slope
   * @param chloramineMvMgL mV for each mg/L of combined chlorine
   * @param walkMvDay random walk, mV as standard deviation after one day
   * @param pickupMv mV while the output is on
   */
  public record Settings(
      double backgroundHoclMgL,
      double temperatureMvC,
      double chloramineMvMgL,
      double walkMvDay,
      double pickupMv,
      Creep creep,
      Run run,
      Slow slow,
      Dead dead,
      Memory memory) {
    /** An electrode without any errors. */
    public static final Settings NONE =
        new Settings(0, 0, 0, 0, 0, Creep.NONE, Run.NONE, Slow.NONE, Dead.NONE, Memory.NONE);
  }

  /**
   * A drift that starts on a certain day and continues.
   *
   * @param mvDay mV per day
   * @param fromDay days from the start
   */
  public record Creep(double mvDay, double fromDay) {
    static final Creep NONE = new Creep(0, 0);
  }

  /**
   * A fast drift for some days, as from a reference that empties or a film that grows, until
   * somebody cleans the probe.
   *
   * @param mvH mV per hour
   * @param fromDay days from the start
   * @param days duration, days
   */
  public record Run(double mvH, double fromDay, double days) {
    static final Run NONE = new Run(0, 0, 0);

    boolean covers(double day) {
      return day >= fromDay && day < fromDay + days;
    }
  }

  /**
   * A fluctuating error (Ornstein-Uhlenbeck process).
   *
   * @param mv standard deviation, mV
   * @param hours correlation time, h
   */
  public record Slow(double mv, double hours) {
    static final Slow NONE = new Slow(0, 1);
  }

  /**
   * A slow fall once the chlorine is gone.
   *
   * @param belowMgL free chlorine at which the fall is half complete, mg/L
   * @param fallMv size of the fall, mV
   * @param hours time constant, h
   */
  public record Dead(double belowMgL, double fallMv, double hours) {
    static final Dead NONE = new Dead(0, 0, 1);
  }

  /**
   * A high reading for a while after a high dose.
   *
   * @param aboveMgL free chlorine above which the surface becomes charged, mg/L
   * @param mv error at twice that level, mV
   * @param hours time constant of the recovery, h
   */
  public record Memory(double aboveMgL, double mv, double hours) {
    static final Memory NONE = new Memory(1, 0, 1);
  }

  ElectrodeErrors(Settings settings, Random random) {
    this.settings = settings;
    this.none = settings.equals(Settings.NONE);
    this.random = random;
    this.slow = new Decay(3600 * settings.slow.hours);
    this.fall = new Decay(3600 * settings.dead.hours);
    this.discharge = new Decay(3600 * settings.memory.hours);
    this.slowMv = settings.slow.mv * random.nextGaussian();
  }

  /** An electrode without any errors. */
  static ElectrodeErrors none() {
    return new ElectrodeErrors(Settings.NONE, new Random(0));
  }

  double backgroundHoclMgL() {
    return settings.backgroundHoclMgL;
  }

  /**
   * @param outputOn whether the chlorine output is on
   */
  void step(double dtS, Water water, boolean outputOn) {
    if (none) {
      return;
    }
    ageDays += dtS / DAY_S;
    walkMv += settings.walkMvDay * StrictMath.sqrt(dtS / DAY_S) * random.nextGaussian();
    double kept = slow.over(dtS);
    slowMv =
        slowMv * kept + settings.slow.mv * StrictMath.sqrt(1 - kept * kept) * random.nextGaussian();
    runMv =
        settings.run.covers(ageDays)
            ? runMv + settings.run.mvH * dtS / 3600
            : runMv * cleaned.over(dtS);
    fall(dtS, water.freeChlorineMgL);
    remember(dtS, water.freeChlorineMgL);
    double creepMv = settings.creep.mvDay * StrictMath.max(0, ageDays - settings.creep.fromDay);
    mv =
        creepMv
            + walkMv
            + slowMv
            + runMv
            + fallenMv
            + rememberedMv
            + settings.temperatureMvC * (water.temperatureC - 25)
            + settings.chloramineMvMgL * water.combinedChlorineMgL
            + (outputOn ? settings.pickupMv : 0);
  }

  private void fall(double dtS, double freeMgL) {
    Dead dead = settings.dead;
    if (dead.fallMv == 0) {
      return;
    }
    double share = freeMgL / dead.belowMgL;
    double square = share * share;
    double settledMv = -dead.fallMv / (1 + square * square);
    Decay decay = settledMv < fallenMv ? fall : rise;
    fallenMv = settledMv + (fallenMv - settledMv) * decay.over(dtS);
  }

  private void remember(double dtS, double freeMgL) {
    Memory memory = settings.memory;
    if (memory.mv == 0) {
      return;
    }
    double settledMv = memory.mv * StrictMath.max(0, freeMgL / memory.aboveMgL - 1);
    Decay decay = settledMv > rememberedMv ? charge : discharge;
    rememberedMv = settledMv + (rememberedMv - settledMv) * decay.over(dtS);
  }

  /** Their contribution to the potential at which the electrode would settle, mV. */
  double mv() {
    return mv;
  }
}
