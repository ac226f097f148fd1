package limnostat.season;

import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.SplittableRandom;
import limnostat.account.DoseCaps;
import limnostat.actuate.OutputSettings;
import limnostat.control.ControlSettings;
import limnostat.control.ControlSettings.PumpWindow;
import limnostat.estimate.EstimateSettings;
import limnostat.estimate.SlowSettings;
import limnostat.measure.FlowSensor;
import limnostat.measure.MeasureSettings;
import limnostat.measure.PhCalibration;
import limnostat.measure.ProbeSettings;
import limnostat.measure.Role;
import limnostat.plant.AcidFeeder;
import limnostat.plant.DoserSettings;
import limnostat.plant.GlassElectrode;
import limnostat.plant.OrpElectrode;
import limnostat.plant.PlantSettings;
import limnostat.safety.HardBounds;
import limnostat.safety.SafetyLimits;
import limnostat.scan.ScanSettings;
import limnostat.scan.ScanSettings.Channel;
import limnostat.water.ChlorineForm;
import limnostat.water.Orp;

/**
 * Draws one pool of a season and what an installer knows of it. The installer knows the output's
 * label, the pump's hours, the place and the pH buffers, and has a configured volume and
 * stabiliser. Everything else in {@code configured} is the shipped default. All ranges [judgement].
 */
final class SiteDraw {
  private static final ZoneId ZONE = ZoneId.of("Europe/Berlin");
  private static final LocalDate FIRST_DAY = LocalDate.of(2026, 6, 1);

  /** How far near pools are from the domestic one, as a share of the whole range. */
  private static final double NEAR_SPREAD = 0.25;

  /** For near pools the configuration is true within a few per cent, and so is a test. */
  private static final double NEAR_NOISE = 0.4;

  /** Acid of 31.45 %, mL/h per m³ of pool. */
  private static final double ACID_ML_H_M3 = 30;

  private final SeasonSettings season;
  private final int number;
  private final boolean wide;
  private final SplittableRandom random;
  private final double startUnixS = (double) FIRST_DAY.atStartOfDay(ZONE).toEpochSecond();
  private final Stranger stranger;

  private SiteDraw(SeasonSettings season, int number, long seed) {
    this.season = season;
    this.number = number;
    this.wide = season.spread() != Spread.NEAR;
    this.random = new SplittableRandom(seed);
    this.stranger = new Stranger(season, seed, startUnixS);
  }

  /**
   * @param seed seed for this pool
   */
  static Site site(SeasonSettings season, int number, long seed) {
    return new SiteDraw(season, number, seed).draw();
  }

  private Site draw() {
    double volumeFactor = stranger.volumeFactor(wide ? between(0.85, 1.15) : between(0.97, 1.03));
    double stabiliserFactor =
        stranger.stabiliserFactor(wide ? between(0.6, 1.4) : between(0.95, 1.05));
    double outputFactor = stranger.outputFactor(wide ? between(0.75, 1.25) : between(0.95, 1.05));
    if (season.perfect().contains(Perfect.CONFIGURED)) {
      volumeFactor = 1;
      stabiliserFactor = 1;
      outputFactor = 1;
    }
    PlantSettings plant = stranger.electrode(stranger.water(pool()));
    double configuredCyanuricAcidMgL = plant.basin().cyanuricAcidMgL() * stabiliserFactor;
    ControlSettings control = control(configuredCyanuricAcidMgL);
    double volumeM3 = plant.basin().volumeM3();
    List<Site.Party> parties = stranger.parties(parties(volumeM3), volumeM3);
    PlantSettings unsized = stranger.pump(plant.withFeeders(feeders(plant, outputFactor)), control);
    double sized = stranger.sizeFactor(sizeFactor());
    boolean acidFitted = chance(0.4);
    PhCalibration calibration = calibration(plant.instruments().ph());
    TestKit kit = stranger.kit(kit());
    List<Double> habit = each(stranger.habit(habit(control)));

    Survey survey = Survey.of(unsized, parties, control, startUnixS, season.lengthS());
    double labelGH =
        sized * survey.demandMgLDay() * volumeM3 / (control.pumpS() / 3600) / outputFactor;
    Set<Role> fitted = fitted(unsized.feeders().chlorine());
    PlantSettings sizedPlant = unsized.withLabelGH(labelGH).withFitted(fitted, false);
    ScanSettings configured =
        configured(
            sizedPlant,
            control,
            volumeM3 * volumeFactor,
            configuredCyanuricAcidMgL,
            calibration,
            acidFitted);
    return new Site(
        number,
        sizedPlant,
        configured,
        startUnixS,
        survey,
        parties,
        kit,
        habit,
        stranger.manner(),
        stranger.hands(),
        stranger.traits());
  }

  private PlantSettings pool() {
    PlantSettings drawn = PlantSettings.random(random.nextLong(), wide ? 1 : NEAR_SPREAD);
    // No domestic output can keep the chlorine in an outdoor pool without stabiliser.
    double cyanuricAcidMgL = wide ? between(15, 90) : drawn.basin().cyanuricAcidMgL();
    PlantSettings.Instruments i = drawn.instruments();
    return drawn
        .withWater(drawn.basin().freeChlorineMgL(), cyanuricAcidMgL, drawn.basin().saltMgL())
        .withInstruments(
            new PlantSettings.Instruments(
                electrode(i.orp()), i.ph(), i.thermometer(), i.flowMeter(), i.fitted()));
  }

  private OrpElectrode.Settings electrode(OrpElectrode.Settings drawn) {
    // Near: about the program's initial level.
    double nearOffsetMv = Orp.LEVEL_MV - drawn.levelMv() + between(-10, 10);
    double nearSlopeMv = between(45, 55);
    // One wide electrode in six is worn out: 60 mV of drift and the loss of a third of its slope in
    // 60 days.
    boolean worn = chance(1.0 / 6);
    double driftSign = chance(0.5) ? 1 : -1;
    if (season.perfect().contains(Perfect.ELECTRODE)) {
      return new OrpElectrode.Settings(
          Orp.LEVEL_MV,
          0,
          Orp.SLOPE_MV,
          -Orp.theoreticalSlopeMv(25),
          drawn.lagMin(),
          0,
          0,
          drawn.whiteMv(),
          drawn.wanderMv());
    }
    return new OrpElectrode.Settings(
        drawn.levelMv(),
        wide ? drawn.offsetMv() : nearOffsetMv,
        wide ? drawn.slopeMv() : nearSlopeMv,
        drawn.slopePhMv(),
        drawn.lagMin(),
        wide && worn ? driftSign : drawn.driftMvDay(),
        wide && worn ? StrictMath.log(1.5) / 60 : drawn.foulingPerDay(),
        drawn.whiteMv(),
        drawn.wanderMv());
  }

  private PlantSettings.Feeders feeders(PlantSettings plant, double outputFactor) {
    boolean liquid = chance(0.4);
    double decayPerDay = wide ? between(0.001, 0.006) : between(0.001, 0.003);
    DoserSettings.SaltCell cell = (DoserSettings.SaltCell) plant.feeders().chlorine();
    double volumeM3 = plant.basin().volumeM3();
    // The owner keeps the tank filled. It is modelled as one that lasts, with liquid that loses
    // strength.
    double tankL = volumeM3 * season.days();
    DoserSettings chlorine =
        liquid
            ? new DoserSettings.Liquid(cell.labelGH(), 12.5, outputFactor, tankL, decayPerDay)
            : new DoserSettings.SaltCell(
                cell.labelGH(),
                cell.gaps(),
                cell.nominalEfficiency(),
                outputFactor,
                cell.supplyMaxV(),
                cell.wearPerKh());
    return new PlantSettings.Feeders(
        stranger.feeder(chlorine),
        new AcidFeeder.Settings(ACID_ML_H_M3 * volumeM3, 10.01, 20 * volumeM3 * season.days()));
  }

  /**
   * Ratio of output to demand, both within the pump's hours. In one wide pool of eight it is too
   * low.
   */
  private double sizeFactor() {
    boolean undersized = chance(1.0 / 8);
    double drawn = wide ? between(1.3, 2.5) : between(1.6, 2.2);
    return wide && undersized ? 0.9 : drawn;
  }

  private ControlSettings control(double configuredCyanuricAcidMgL) {
    double hours = wide ? between(8, 12) : 10;
    double start = between(7, 10);
    boolean split = wide && chance(0.25);
    List<PumpWindow> windows =
        split
            ? List.of(window(start, hours / 2), window(start + hours / 2 + 3, hours / 2))
            : List.of(window(start, hours));
    double targetMgL = configuredCyanuricAcidMgL < 50 ? 3.5 : 4;
    return new ControlSettings(targetMgL, 7.4, ZONE, windows);
  }

  private static PumpWindow window(double startH, double hours) {
    long startS = 60 * StrictMath.round(startH * 60);
    long endS = startS + 60 * StrictMath.round(hours * 60);
    return new PumpWindow((int) startS, (int) (endS % 86_400));
  }

  /** On Saturdays: 6 to 15 people per 50 m³ for wide pools, 4 to 8 for near ones. */
  private List<Site.Party> parties(double volumeM3) {
    List<Site.Party> parties = new ArrayList<>();
    double chance = wide ? between(0, 0.4) : 0.15;
    for (int week = 0; 7 * week + 5 < season.days(); week++) {
      boolean held = chance(chance);
      double people = wide ? between(6, 15) : between(4, 8);
      double fromUnixS =
          startUnixS + (7 * week + 5) * SeasonSettings.DAY_S + between(12, 17) * 3600;
      if (held) {
        parties.add(
            new Site.Party(
                (int) StrictMath.ceil(people * volumeM3 / 50), fromUnixS, fromUnixS + 3 * 3600));
      }
    }
    return parties;
  }

  /** A calibration with two buffers, each slightly wrong, when the probe was fitted. */
  private PhCalibration calibration(GlassElectrode.Settings glass) {
    return new PhCalibration(
        glass.offsetMv() + between(-2, 2), glass.slopeFraction() * between(0.99, 1.01));
  }

  private Kit kit() {
    double biasFraction = between(-0.12, 0.12);
    double stabiliserBiasFraction = between(-0.15, 0.15);
    boolean coarse = chance(1.0 / 3);
    boolean testsStabiliser = chance(0.5);
    Kit kit =
        wide
            ? new Kit(
                random.nextLong(),
                1,
                biasFraction,
                stabiliserBiasFraction,
                coarse ? 0.5 : 0,
                testsStabiliser ? 0.25 : 0)
            : new Kit(random.nextLong(), NEAR_NOISE, 0, 0, 0, 0.25);
    return season.perfect().contains(Perfect.KIT) ? kit.perfect() : kit;
  }

  /**
   * When the probes are fitted, then every week; some owners of wide pools test only every third
   * week.
   */
  private List<Double> habit(ControlSettings control) {
    boolean seldom = wide && chance(0.25);
    PumpWindow window = control.pumpWindows().get(0);
    int firstWeekday = 1 + random.nextInt(6);
    List<Double> habit = new ArrayList<>();
    habit.add(startUnixS + window.startS() + 3600);
    for (int day = firstWeekday + 1; day < season.days(); day += seldom ? 21 : 7) {
      double latestS = window.endS() - window.startS() - 1800;
      habit.add(startUnixS + day * SeasonSettings.DAY_S + window.startS() + between(1800, latestS));
    }
    return habit;
  }

  /** The same start, then a test every so many days if the season sets an interval. */
  private List<Double> each(List<Double> own) {
    if (season.habitDays() == 0) {
      return own;
    }
    List<Double> habit = new ArrayList<>();
    for (int day = 0; day < season.days(); day += season.habitDays()) {
      habit.add(own.get(0) + day * SeasonSettings.DAY_S);
    }
    return habit;
  }

  /** Every second owner of a salt cell knows the current that corresponds to the label. */
  private OptionalDouble labelGAh(DoserSettings doser) {
    return doser instanceof DoserSettings.SaltCell cell && number % 2 == 0
        ? OptionalDouble.of(cell.labelGH() / cell.labelA())
        : OptionalDouble.empty();
  }

  private static Set<Role> fitted(DoserSettings doser) {
    EnumSet<Role> fitted = EnumSet.of(Role.ORP_MV, Role.PH_MV, Role.WATER_C, Role.FLOW);
    if (doser instanceof DoserSettings.SaltCell) {
      fitted.add(Role.CELL_A);
    }
    return fitted;
  }

  private ScanSettings configured(
      PlantSettings plant,
      ControlSettings control,
      double volumeM3,
      double cyanuricAcidMgL,
      PhCalibration calibration,
      boolean acidFitted) {
    double labelGH = plant.feeders().chlorine().labelGH();
    double targetMgL = control.freeChlorineTargetMgL();
    double hourCapG = StrictMath.min(1.1 * labelGH, HardBounds.CHLORINE_HOUR_MG_L * volumeM3);
    double dayCapG =
        StrictMath.min(
            1.1 * labelGH * control.pumpS() / 3600, HardBounds.CHLORINE_DAY_MG_L * volumeM3);
    return new ScanSettings(
        new MeasureSettings(
            new ProbeSettings(100, 1000, 5, 0.05, 3600, 60),
            0,
            new ProbeSettings(4, 10, 0.05, 0.0005, 3600, 60),
            calibration,
            new ProbeSettings(-2, 50, 0.2, 0.01, 0, 60),
            25,
            new FlowSensor.Switch(),
            180,
            plant.instruments().fitted()),
        new EstimateSettings(
            volumeM3,
            plant.climate().sky().latitudeDeg(),
            plant.climate().sky().longitudeDeg(),
            SlowSettings.configured(
                cyanuricAcidMgL,
                plant.basin().saltMgL(),
                plant.feeders().chlorine() instanceof DoserSettings.Liquid
                    ? ChlorineForm.LIQUID
                    : ChlorineForm.SALT_CELL,
                SlowSettings.MAKE_UP_SHARE_WEEK * volumeM3),
            2,
            3,
            limnostat.estimate.TestKit.UNSPECIFIED,
            labelGAh(plant.feeders().chlorine())),
        control,
        new SafetyLimits(
            HardBounds.ORP_HIGH_MV, targetMgL + 2, 10, 6.8, 8.4, 10, 40, 60, 300, 24 * 3600),
        new Channel(
            new OutputSettings(OutputSettings.Drive.RELAY, 600, 60, 60, 240 * 60, 300),
            new DoseCaps(labelGH, hourCapG, dayCapG, hourCapG / 20)),
        acidFitted
            ? new Channel(
                new OutputSettings(OutputSettings.Drive.RELAY, 600, 10, 60, 900, 1800),
                new DoseCaps(
                    plant.feeders().acid().rateMlH(), 4 * volumeM3, 12 * volumeM3, 0.2 * volumeM3))
            : Channel.NONE);
  }

  private double between(double low, double high) {
    return low + (high - low) * random.nextDouble();
  }

  private boolean chance(double probability) {
    return random.nextDouble() < probability;
  }
}
