package limnostat.season;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.SplittableRandom;
import limnostat.control.ControlSettings;
import limnostat.control.ControlSettings.PumpWindow;
import limnostat.plant.Algae;
import limnostat.plant.Bathers;
import limnostat.plant.ChlorineLoss;
import limnostat.plant.DoserSettings;
import limnostat.plant.ElectrodeErrors;
import limnostat.plant.Fresh;
import limnostat.plant.Hydraulics;
import limnostat.plant.Organics;
import limnostat.plant.OrpElectrode;
import limnostat.plant.PlantSettings;
import limnostat.plant.Strangeness;
import limnostat.plant.SunLaw;
import limnostat.water.Cyanurate;

/**
 * Turns a wide pool into a strange one. Every range of the strange pools is in this class. Each
 * part draws from its own generator, so that one part of a pool is the same whichever other parts
 * are strange.
 *
 * <p>Unless a range has a source beside it, it is engineering judgement. The ranges are wide, so
 * that a controller that is good on all pools relies on none of these properties. {@code
 * src/site/markdown/simulation.md} lists them.
 */
final class Stranger {
  private static final double DAY_S = SeasonSettings.DAY_S;
  private static final double LONGITUDE_H = 1.0 / 15;

  /** The free chlorine at which an electrode's sensitivity is specified, mg/L. */
  private static final double SENSITIVE_AT_MG_L = 3;

  private static final double SENSITIVE_AT_PH = 7.5;

  private final SeasonSettings season;
  private final Set<Family> strange;
  private final double startUnixS;
  private final Map<Family, SplittableRandom> generators = new EnumMap<>(Family.class);
  private final List<String> traits = new ArrayList<>();

  /**
   * @param seed seed for the pool
   * @param startUnixS start of the season, a local midnight, Unix s
   */
  Stranger(SeasonSettings season, long seed, double startUnixS) {
    this.season = season;
    this.strange = season.strange();
    this.startUnixS = startUnixS;
    SplittableRandom seeds = new SplittableRandom(seed ^ 0x57a26e5L);
    for (Family part : Family.ALL.parts()) {
      generators.put(part, new SplittableRandom(seeds.nextLong()));
    }
  }

  /** In what way the pool is strange, as text for people; complete once the pool is drawn. */
  List<String> traits() {
    return traits;
  }

  private boolean is(Family part) {
    return strange.contains(part);
  }

  private boolean knownTruly() {
    return season.perfect().contains(Perfect.CONFIGURED);
  }

  // ---- the plant and what the installer knows of it

  /** Ratio of configured to true volume. */
  double volumeFactor(double wide) {
    return factor(Family.PLANT, wide, 0.6, 1.5, "volume configured x%.2f");
  }

  /** Ratio of true output to that on the label. */
  double outputFactor(double wide) {
    return factor(Family.PLANT, wide, 0.6, 1.5, "output x%.2f of its label");
  }

  private double factor(Family part, double wide, double low, double high, String trait) {
    if (!is(part)) {
      return wide;
    }
    Dice dice = dice(part);
    // half of them are wrong by a third of the range at most
    double power = dice.chance(0.5) ? 1 : 0.33;
    double drawn = StrictMath.pow(dice.ratio(low, high), power);
    if (knownTruly()) {
      return wide;
    }
    note(StrictMath.abs(StrictMath.log(drawn)) > 0.25, trait, drawn);
    return drawn;
  }

  /**
   * Ratio of true output to demand, both within the pump's hours; in one pool of twelve it is too
   * low.
   */
  double sizeFactor(double wide) {
    if (!is(Family.PLANT)) {
      return wide;
    }
    Dice dice = dice(Family.PLANT);
    boolean small = dice.chance(0.08);
    double drawn = small ? dice.between(0.7, 1) : dice.ratio(1.3, dice.chance(0.3) ? 6 : 2.5);
    note(drawn < 1.3 || drawn > 3, "output %.1f times the need", drawn);
    return drawn;
  }

  /**
   * A cell that fades to half in a season at worst, and a tank that loses a third in a month at
   * worst.
   */
  DoserSettings feeder(DoserSettings wide) {
    if (!is(Family.PLANT)) {
      return wide;
    }
    Dice dice = dice(Family.PLANT);
    double wearPerKh = dice.chance(0.3) ? dice.between(0.2, 1.2) : dice.between(0, 0.2);
    double decayPerDay = dice.ratio(0.002, 0.012);
    // Java 17 has no switch over patterns
    if (wide instanceof DoserSettings.SaltCell cell) {
      note(wearPerKh > 0.4, "cell loses %.0f %% in 1000 h", 100 * (1 - StrictMath.exp(-wearPerKh)));
      return new DoserSettings.SaltCell(
          cell.labelGH(),
          cell.gaps(),
          cell.nominalEfficiency(),
          cell.outputFactor(),
          cell.supplyMaxV(),
          wearPerKh);
    }
    if (wide instanceof DoserSettings.Liquid liquid) {
      note(decayPerDay > 0.006, "tank loses %.1f %% a day", 100 * decayPerDay);
      return new DoserSettings.Liquid(
          liquid.labelGH(),
          liquid.tradePercent(),
          liquid.outputFactor(),
          liquid.tankL(),
          decayPerDay);
    }
    return wide;
  }

  /**
   * Pump hours that start and end up to 1.5 h early or late, and days on which the pump does not
   * run.
   */
  PlantSettings pump(PlantSettings wide, ControlSettings control) {
    if (!is(Family.PLANT)) {
      return wide;
    }
    Dice dice = dice(Family.PLANT);
    boolean shifted = dice.chance(0.5);
    double missedShare = dice.chance(0.4) ? dice.between(0, 0.05) : 0;
    double longitudeDeg = wide.climate().sky().longitudeDeg();
    List<Hydraulics.Pump.OwnTimer> timers = new ArrayList<>();
    for (PumpWindow window : control.pumpWindows()) {
      double early = dice.between(-1.5, 1.5);
      double late = dice.between(-1.5, 1.5);
      double startH = window.startS() / 3600.0 + (shifted ? early : 0);
      double hours = hours(window) + (shifted ? late - early : 0);
      timers.add(
          new Hydraulics.Pump.OwnTimer(
              solarHour(startH, longitudeDeg), StrictMath.max(2, StrictMath.min(23, hours))));
    }
    Set<Long> missed = new HashSet<>();
    long first = (long) StrictMath.floor(startUnixS / DAY_S) + 1;
    for (long day = first; day < first + season.days(); day++) {
      if (dice.chance(missedShare)) {
        missed.add(day);
      }
    }
    if (knownTruly() || (!shifted && missed.isEmpty())) {
      return wide;
    }
    note(shifted, "pump hours not as configured");
    note(!missed.isEmpty(), "pump stands on %d days", missed.size());
    Hydraulics.Settings h = wide.hydraulics();
    return wide.withHydraulics(
        new Hydraulics.Settings(
            new Hydraulics.Pump.OwnTimers(timers, missed),
            h.turnoverH(),
            h.inletShare(),
            h.jetRatio(),
            h.idleExchangeH(),
            h.probeLineM3(),
            h.returnLineM3(),
            h.lineCreepH()));
  }

  private static double hours(PumpWindow window) {
    double lengthS = window.endS() - window.startS();
    return (lengthS > 0 ? lengthS : lengthS + DAY_S) / 3600;
  }

  private double solarHour(double localHour, double longitudeDeg) {
    double utcAtMidnightH = startUnixS / 3600 - 24 * StrictMath.floor(startUnixS / DAY_S);
    double hour = utcAtMidnightH + localHour + longitudeDeg * LONGITUDE_H;
    return hour - 24 * StrictMath.floor(hour / 24);
  }

  // ---- the water

  /** Ratio of configured to true stabiliser. */
  double stabiliserFactor(double wide) {
    return factor(Family.WATER, wide, 0.3, 2, "stabiliser configured x%.2f");
  }

  PlantSettings water(PlantSettings wide) {
    if (!is(Family.WATER)) {
      return wide;
    }
    Dice dice = dice(Family.WATER);
    ChlorineLoss.Settings loss = wide.loss();
    Bathers.Settings bathers = wide.bathers();
    Strangeness strangeness =
        new Strangeness(
            wide.strange().electrode(), sun(dice), algae(dice), organics(dice), fresh(dice));
    return wide.withLoss(
            new ChlorineLoss.Settings(
                loss.hoclPerS(),
                loss.oclPerS(),
                loss.boundPerS(),
                loss.attenuationPerM(),
                loss.darkPerDay(),
                loss.steadyMgLDay(),
                loss.doublingC(),
                loss.linePerH(),
                dice.ratio(0.2, 4),
                dice.between(0.05, 0.5),
                dice.ratio(0.03, 0.8)))
        // In addition to the 4 to 5.5 g of clean bathers [checked, see Bathers], what lotion and
        // worse consume.
        .withBathers(
            new Bathers.Settings(bathers.visitsPerDay(), bathers.peopleMax(), dice.between(4, 8)))
        .withStrangeness(strangeness);
  }

  /**
   * In unstabilised water half of the chlorine is lost in 35 to 60 minutes of noon sun. With 30
   * mg/L of stabiliser 6 to 20 % is lost in one hour of it (common practice, no source).
   */
  private SunLaw sun(Dice dice) {
    boolean other = dice.chance(0.6);
    double perH = dice.between(0.6, 1.4);
    double halfMgL = dice.between(2, 6);
    double power = dice.between(0.7, 1.5);
    double fromHour = dice.between(4, 10);
    double untilHour = dice.between(15, 21);
    double inShade = dice.between(0.1, 0.5);
    if (!other) {
      return Strangeness.NONE.sun();
    }
    note(fromHour > 8 || untilHour < 17, "sun from %.0f to %.0f h", fromHour, untilHour);
    return new SunLaw(perH, halfMgL, power, fromHour, untilHour, inShade);
  }

  private Algae.Settings algae(Dice dice) {
    boolean some = dice.chance(0.85);
    double seedMgLDay = dice.ratio(0.02, 0.2);
    double capMgLDay = dice.ratio(1.5, 10);
    double growthPerDay = dice.between(0.2, 0.8);
    double deathPerDay = dice.between(0.4, 2);
    double safeShare = dice.between(0.015, 0.045);
    if (!some) {
      return Strangeness.NONE.algae();
    }
    note(capMgLDay * growthPerDay > 3, "algae to %.0f mg/L a day", capMgLDay);
    // At most the level that keeps the band's lower edge, 2.5 mg/L, free of algae.
    return new Algae.Settings(seedMgLDay, capMgLDay, growthPerDay, deathPerDay, safeShare, 2);
  }

  private Organics.Settings organics(Dice dice) {
    Organics.Settings drawn =
        new Organics.Settings(
            dice.ratio(0.05, 0.8),
            dice.between(0.1, 0.6),
            DAY_S * dice.between(1.5, 8),
            dice.ratio(0.15, 1.5),
            1 / dice.between(8, 40),
            dice.between(0.3, 3),
            dice.between(0.1, 1.5),
            dice.between(0, 0.03));
    note(
        drawn.stormMgL() + drawn.stormQuickMgL() > 3,
        "storms of %.1f mg/L",
        drawn.stormMgL() + drawn.stormQuickMgL());
    return drawn;
  }

  private Fresh.Settings fresh(Dice dice) {
    boolean washes = dice.chance(0.6);
    Fresh.Settings drawn = new Fresh.Settings(dice.between(5, 21), dice.between(0.01, 0.05));
    return washes ? drawn : Strangeness.NONE.fresh();
  }

  /** Replaces the Saturday parties by parties on any day, with up to 24 people per 50 m³. */
  List<Site.Party> parties(List<Site.Party> wide, double volumeM3) {
    if (!is(Family.WATER)) {
      return wide;
    }
    Dice dice = dice(Family.WATER);
    double perDay = dice.between(0, 0.06);
    List<Site.Party> parties = new ArrayList<>();
    for (int day = 1; day < season.days(); day++) {
      boolean held = dice.chance(perDay);
      double people = dice.between(6, 24) * volumeM3 / 50;
      double fromUnixS = startUnixS + day * DAY_S + dice.between(11, 19) * 3600;
      double hours = dice.between(2, 5);
      if (held) {
        parties.add(
            new Site.Party((int) StrictMath.ceil(people), fromUnixS, fromUnixS + 3600 * hours));
      }
    }
    note(parties.size() > 0.05 * season.days(), "%d parties", parties.size());
    return parties;
  }

  // ---- the electrode

  PlantSettings electrode(PlantSettings wide) {
    if (!is(Family.ELECTRODE) || season.perfect().contains(Perfect.ELECTRODE)) {
      return wide;
    }
    Dice dice = dice(Family.ELECTRODE);
    OrpElectrode.Settings orp = wide.instruments().orp();
    // 30–90 mV a decade plausible [practice]; 218 mV between two of a kind [checked]
    double slopeMv = dice.between(30, 85);
    double offsetMv = dice.between(-90, 60);
    boolean fades = dice.chance(0.4);
    double foulingPerDay = dice.between(0.001, 0.01);
    note(fades && foulingPerDay > 0.006, "slope falls by %.1f %% a day", 100 * foulingPerDay);
    double slopePhMv = dice.between(-45, 10);
    double lagMin = dice.ratio(2, 20);
    PlantSettings.Instruments i = wide.instruments();
    return wide.withInstruments(
            new PlantSettings.Instruments(
                new OrpElectrode.Settings(
                    orp.levelMv(),
                    offsetMv,
                    slopeMv,
                    slopePhMv,
                    lagMin,
                    0,
                    fades ? foulingPerDay : 0,
                    orp.whiteMv(),
                    orp.wanderMv()),
                i.ph(),
                i.thermometer(),
                i.flowMeter(),
                i.fitted()))
        .withStrangeness(wide.strange().withElectrode(errors(dice, slopeMv, wide.basin())));
  }

  private ElectrodeErrors.Settings errors(Dice dice, double slopeMv, PlantSettings.Basin basin) {
    boolean flat = dice.chance(0.5);
    // 0.6 to 2.2 mV for a 10 % change of free chlorine were seen near the target
    double sensitivityMv = dice.between(0.6, 2.5);
    double backgroundMgL =
        flat ? backgroundHoclMgL(sensitivityMv, slopeMv, basin.cyanuricAcidMgL()) : 0;
    note(backgroundMgL > 0, "%.1f mV for 10 %% at 3 mg/L", sensitivityMv);
    double temperatureMvC = dice.between(-0.6, 0.6);
    double chloramineMv = dice.chance(0.5) ? dice.between(-30, 20) : 0;
    double walkMvDay = dice.ratio(0.3, dice.chance(0.125) ? 4 : 1);
    note(walkMvDay > 2, "walks %.1f mV a day", walkMvDay);
    double pickupMv = dice.chance(0.15) ? dice.sign() * dice.ratio(2, 30) : 0;
    note(pickupMv != 0, "%+.0f mV while the output is on", pickupMv);
    return new ElectrodeErrors.Settings(
        backgroundMgL,
        temperatureMvC,
        chloramineMv,
        walkMvDay,
        pickupMv,
        creep(dice),
        run(dice),
        slow(dice),
        dead(dice),
        memory(dice));
  }

  /**
   * The background at which a change of free chlorine by 10 % moves the electrode by the given
   * amount: {@code b log10((H33 + x) / (H30 + x)) = s}, so {@code x = (H33 - r H30) / (r - 1), r =
   * 10^(s/b)}.
   */
  static double backgroundHoclMgL(double sensitivityMv, double slopeMv, double cyanuricAcidMgL) {
    double at =
        Cyanurate.hypochlorousAcidMgL(SENSITIVE_AT_MG_L, cyanuricAcidMgL, SENSITIVE_AT_PH, 25);
    double above =
        Cyanurate.hypochlorousAcidMgL(
            1.1 * SENSITIVE_AT_MG_L, cyanuricAcidMgL, SENSITIVE_AT_PH, 25);
    double ratio = StrictMath.pow(10, sensitivityMv / slopeMv);
    return StrictMath.max(0, (above - ratio * at) / (ratio - 1));
  }

  private ElectrodeErrors.Creep creep(Dice dice) {
    boolean fromStart = dice.chance(0.35);
    boolean later = dice.chance(0.15);
    double steadyMv = dice.sign() * dice.ratio(0.2, 1.2);
    double laterMv = dice.sign() * dice.ratio(0.6, 5);
    double fromDay = dice.between(3, 45);
    if (later) {
      note(true, "creeps %+.1f mV a day from day %.0f", laterMv, fromDay);
      return new ElectrodeErrors.Creep(laterMv, fromDay);
    }
    note(fromStart, "creeps %+.1f mV a day", steadyMv);
    return new ElectrodeErrors.Creep(fromStart ? steadyMv : 0, 0);
  }

  private ElectrodeErrors.Run run(Dice dice) {
    boolean runs = dice.chance(0.05);
    double mvH = dice.sign() * dice.between(1, 3);
    double fromDay = dice.between(5, 50);
    double days = dice.between(1, 5);
    note(runs, "runs off %+.1f mV an hour from day %.0f for %.1f days", mvH, fromDay, days);
    return new ElectrodeErrors.Run(runs ? mvH : 0, fromDay, runs ? days : 0);
  }

  private ElectrodeErrors.Slow slow(Dice dice) {
    // one in eight is much worse than the others
    double mv = dice.ratio(2, dice.chance(0.125) ? 30 : 5);
    double hours = dice.ratio(2, 72);
    note(mv > 8, "slow error of %.0f mV over %.0f h", mv, hours);
    return new ElectrodeErrors.Slow(mv, hours);
  }

  private ElectrodeErrors.Dead dead(Dice dice) {
    boolean falls = dice.chance(0.85);
    double belowMgL = dice.between(0.1, 0.3);
    double fallMv = dice.between(100, 350);
    double hours = dice.ratio(3, 30);
    return new ElectrodeErrors.Dead(belowMgL, falls ? fallMv : 0, hours);
  }

  private ElectrodeErrors.Memory memory(Dice dice) {
    boolean remembers = dice.chance(0.3);
    double aboveMgL = dice.between(4.5, 7);
    double mv = dice.between(20, 80);
    double hours = dice.between(12, 48);
    return new ElectrodeErrors.Memory(aboveMgL, remembers ? mv : 0, hours);
  }

  // ---- the people

  TestKit kit(TestKit wide) {
    if (!is(Family.PEOPLE) || season.perfect().contains(Perfect.KIT)) {
      return wide;
    }
    Dice dice = dice(Family.PEOPLE);
    double kindAt = dice.between(0, 1);
    HouseholdKit.Kind kind =
        kindAt < 0.35
            ? HouseholdKit.Kind.DROPS
            : kindAt < 0.6
                ? HouseholdKit.Kind.COMPARATOR
                : kindAt < 0.85 ? HouseholdKit.Kind.STRIPS : HouseholdKit.Kind.PHOTOMETER;
    boolean fine = dice.chance(0.5);
    double within = dice.between(-1, 1);
    double combinedShare = dice.chance(0.5) ? dice.between(0, 0.4) : 0;
    double stabiliserBias = dice.between(-0.25, 0.25);
    boolean testsStabiliser = dice.chance(0.4);
    long seed = dice.random.nextLong();
    // [practice] for drops and strips; bias and everything else [judgement]
    double scatter =
        switch (kind) {
          case DROPS -> fine ? 0.05 : 0.1;
          case COMPARATOR -> 0.12;
          case STRIPS -> 0.3;
          case PHOTOMETER -> 0.05;
        };
    double bias =
        switch (kind) {
          case DROPS -> 0.05;
          case COMPARATOR -> 0.15;
          case STRIPS -> 0.2;
          case PHOTOMETER -> 0.07;
        };
    double stepMgL =
        switch (kind) {
          case DROPS -> fine ? 0.2 : 0.5;
          case COMPARATOR -> fine ? 0.5 : 1;
          case STRIPS, PHOTOMETER -> 0;
        };
    note(true, kind.name().toLowerCase(Locale.ROOT));
    return new HouseholdKit(
        seed,
        kind,
        scatter,
        bias * within,
        stepMgL,
        combinedShare,
        0.03,
        stabiliserBias,
        testsStabiliser ? 0.25 : 0);
  }

  /**
   * When the probes are fitted, then every few days up to every month, during the day and evening.
   */
  List<Double> habit(List<Double> wide) {
    if (!is(Family.PEOPLE)) {
      return wide;
    }
    Dice dice = dice(Family.PEOPLE);
    double at = dice.between(0, 1);
    int everyDays = at < 0.12 ? 3 : at < 0.65 ? 7 : at < 0.77 ? 14 : at < 0.92 ? 21 : 28;
    note(true, "tests each %d days", everyDays);
    List<Double> habit = new ArrayList<>();
    habit.add(wide.get(0));
    double day = 1 + dice.between(0, everyDays);
    for (; day < season.days(); day += everyDays + dice.between(-0.15, 0.15) * everyDays) {
      double hour = dice.between(8, 21);
      habit.add(startUnixS + StrictMath.floor(day) * DAY_S + hour * 3600);
    }
    return habit;
  }

  /** At most every other day on request for strange pools, otherwise once a week. */
  Answering manner() {
    return season.spread() == Spread.STRANGE ? Answering.willing(startUnixS) : Answering.weekly();
  }

  Hands hands() {
    if (!is(Family.PEOPLE)) {
      return Hands.STILL;
    }
    Dice dice = dice(Family.PEOPLE);
    boolean pours = dice.chance(0.3);
    boolean answers = dice.chance(0.3);
    double perDay = dice.between(0.01, 0.06);
    List<Hands.Pour> all = new ArrayList<>();
    for (int day = 2; day < season.days(); day++) {
      boolean today = dice.chance(perDay);
      double hour = dice.between(8, 21);
      double riseMgL = dice.between(1, 4);
      if (today && pours) {
        all.add(new Hands.Pour(startUnixS + day * DAY_S + hour * 3600, riseMgL));
      }
    }
    double riseMgL = dice.between(1.5, 3);
    note(!all.isEmpty(), "pours %d times", all.size());
    note(answers, "pours after low tests");
    return new Hands(all, answers ? 1 : 0, riseMgL);
  }

  // ---- drawing

  private Dice dice(Family part) {
    // one for each property, so that an additional draw in one shifts none of the next
    return new Dice(new SplittableRandom(generators.get(part).nextLong()));
  }

  private void note(boolean when, String format, Object... values) {
    if (when) {
      traits.add(String.format(Locale.ROOT, format, values));
    }
  }

  private record Dice(SplittableRandom random) {
    double between(double low, double high) {
      return low + (high - low) * random.nextDouble();
    }

    /** Uniform in the logarithm. */
    double ratio(double low, double high) {
      return low * StrictMath.pow(high / low, random.nextDouble());
    }

    boolean chance(double probability) {
      return random.nextDouble() < probability;
    }

    double sign() {
      return random.nextBoolean() ? 1 : -1;
    }
  }
}
