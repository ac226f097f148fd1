package limnostat.plant;

import java.util.EnumMap;
import java.util.Map;
import java.util.Random;
import java.util.SplittableRandom;
import limnostat.actuate.Output;
import limnostat.actuate.Outputs;
import limnostat.measure.Role;
import limnostat.measure.Signal;
import limnostat.measure.Signals;

/**
 * A simulated pool. It has its own time, which only {@link #advance} moves. Not thread-safe.
 *
 * <p>The same settings, start and calls give an identical pool, bit for bit.
 */
public final class Pool {
  private static final double STEP_MAX_S = 60;

  /** mg/L as CaCO3 of one mmol/L of alkalinity. */
  private static final double CALCIUM_CARBONATE_MG_MMOL = 50.0435;

  /** Chlorine demand of the dust and pollen in rain, g Cl2 per m² and mm of rain [judgement]. */
  private static final double RAIN_LOAD_G_M2_MM = 0.02;

  /** Error of ammeter, flow meter and pyranometer as a share of the reading [judgement]. */
  private static final Noise.Settings RELATIVE_NOISE = new Noise.Settings(0.005, 0.01, 600);

  private final PlantSettings settings;
  private final Sky sky;
  private final Weather weather;
  private final Heat heat;
  private final Carbonate gas;
  private final Bathers bathers;
  private final ChlorineLoss loss;
  private final Hydraulics hydraulics;
  private final Doser doser;
  private final AcidFeeder acid;
  private final OrpElectrode orp;
  private final GlassElectrode glass;
  private final Thermometer thermometer;
  private final Noise meterNoise;
  private final Noise solarNoise;
  private final SunLaw sunLaw;
  private final Algae algae;
  private final Organics organics;
  private final Fresh fresh;
  private final PlantFaults faults = new PlantFaults();

  private double unixTimeS;
  private double chlorineGivenG;
  private double chlorineLostG;
  private double demandMgLDay;
  private Signals signals;

  /**
   * @param startUnixTimeS time at the start, Unix s; it determines the season and the hour
   */
  public Pool(PlantSettings settings, double startUnixTimeS) {
    this.settings = settings;
    this.unixTimeS = startUnixTimeS;
    PlantSettings.Basin basin = settings.basin();
    PlantSettings.Climate climate = settings.climate();
    // Each phenomenon has its own generator, so that changing one does not shift the draws of the
    // others.
    SplittableRandom seeds = new SplittableRandom(settings.seed());
    this.sky = new Sky(climate.sky(), new Random(seeds.nextLong()));
    this.weather = new Weather(climate.weather(), climate.sky(), new Random(seeds.nextLong()));
    this.bathers =
        new Bathers(settings.bathers(), climate.sky().longitudeDeg(), new Random(seeds.nextLong()));
    Random orpRandom = new Random(seeds.nextLong());
    this.glass = new GlassElectrode(settings.instruments().ph(), new Random(seeds.nextLong()));
    this.thermometer =
        new Thermometer(settings.instruments().thermometer(), new Random(seeds.nextLong()));
    this.meterNoise = new Noise(RELATIVE_NOISE, new Random(seeds.nextLong()));
    this.solarNoise = new Noise(RELATIVE_NOISE, new Random(seeds.nextLong()));
    this.doser =
        build(
            settings.feeders().chlorine(), new Noise(RELATIVE_NOISE, new Random(seeds.nextLong())));
    Strangeness strange = settings.strange();
    this.orp =
        new OrpElectrode(
            settings.instruments().orp(),
            orpRandom,
            new ElectrodeErrors(strange.electrode(), new Random(seeds.nextLong())));
    this.organics = new Organics(strange.organics(), new Random(seeds.nextLong()));
    this.algae = new Algae(strange.algae());
    this.fresh = new Fresh(strange.fresh());
    this.sunLaw = strange.sun();
    this.acid = new AcidFeeder(settings.feeders().acid());
    this.heat = new Heat(climate.heat(), basin.depthM());
    this.gas = new Carbonate(climate.gas(), basin.depthM());
    this.loss = new ChlorineLoss(settings.loss(), basin.depthM());
    this.hydraulics = new Hydraulics(settings.hydraulics(), basin.volumeM3());
    double waterC =
        basin.waterC().orElseGet(() -> Heat.seasonWaterC(weather.seasonC(startUnixTimeS)));
    for (Water water : hydraulics.bodies()) {
      fill(water, basin, waterC);
    }
    sky.advanceTo(unixTimeS);
    weather.advanceTo(unixTimeS, sky.cloudOctas());
    bathers.advanceTo(unixTimeS, waterC);
    hydraulics.switchPump(
        false, unixTimeS, climate.sky().longitudeDeg(), faults.flowLost(unixTimeS));
    stepProbes(0, false);
    signals = readSignals();
  }

  private static Doser build(DoserSettings doser, Noise noise) {
    // Java 17 has no switch over patterns
    if (doser instanceof DoserSettings.SaltCell cell) {
      return new Cell(cell, noise);
    }
    if (doser instanceof DoserSettings.Liquid liquid) {
      return new LiquidFeeder(liquid);
    }
    return new Tablets((DoserSettings.TrichlorTablets) doser);
  }

  private static void fill(Water water, PlantSettings.Basin basin, double waterC) {
    water.temperatureC = waterC;
    water.freeChlorineMgL = basin.freeChlorineMgL();
    water.cyanuricAcidMgL = basin.cyanuricAcidMgL();
    water.saltMgL = basin.saltMgL();
    water.ph = basin.ph();
    Cyanurate.equilibrate(water);
    water.alkalinityMmolL = basin.totalAlkalinityMgL() / CALCIUM_CARBONATE_MG_MMOL;
    Carbonate.setPh(water, basin.ph());
    Cyanurate.equilibrate(water);
  }

  /**
   * Advances the pool.
   *
   * @param untilUnixTimeS not before the pool's present time
   * @param outputs the state of the outputs throughout
   * @throws IllegalArgumentException if time would run backwards
   */
  public void advance(double untilUnixTimeS, Outputs outputs) {
    if (!(untilUnixTimeS >= unixTimeS)) {
      throw new IllegalArgumentException(
          "the pool is at " + unixTimeS + " s and cannot go back to " + untilUnixTimeS + " s");
    }
    while (unixTimeS < untilUnixTimeS) {
      double next =
          StrictMath.min(
              untilUnixTimeS,
              StrictMath.min(unixTimeS + STEP_MAX_S, faults.nextChangeUnixS(unixTimeS)));
      step(next, outputs);
      unixTimeS = next;
    }
    signals = readSignals();
  }

  private void step(double nextUnixS, Outputs outputs) {
    double dtS = nextUnixS - unixTimeS;
    sky.advanceTo(unixTimeS);
    weather.advanceTo(unixTimeS, sky.cloudOctas());
    bathers.advanceTo(unixTimeS, hydraulics.bulk.temperatureC);
    hydraulics.switchPump(
        outputs.pumpRequest(),
        unixTimeS,
        settings.climate().sky().longitudeDeg(),
        faults.flowLost(unixTimeS));

    double lostG = rainAndBathe(nextUnixS, dtS) + react(dtS);
    chlorineLostG += lostG;
    demandMgLDay = lostG / settings.basin().volumeM3() * 86_400 / dtS;

    Fed fed = feed(dtS, outputs);
    chlorineGivenG += fed.chlorineG();
    hydraulics.step(dtS, fed);
    for (Water water : hydraulics.bodies()) {
      Carbonate.equilibrate(water);
      Cyanurate.equilibrate(water);
    }
    stepProbes(dtS, fed.chlorineG() > 0);
  }

  /**
   * Influences from outside; returns the chlorine that is lost when rain makes the pool overflow,
   * g.
   */
  private double rainAndBathe(double nextUnixS, double dtS) {
    double openM3 = hydraulics.bulk.volumeM3 + hydraulics.inlet.volumeM3;
    double rainMm = weather.rainMmH() * dtS / 3600;
    double left = StrictMath.exp(-rainMm / 1000 / settings.basin().depthM());
    double broughtMgL =
        bathers.broughtG(unixTimeS, nextUnixS) / openM3
            + RAIN_LOAD_G_M2_MM * rainMm / settings.basin().depthM();
    double overflowG = 0;
    for (Water water : open()) {
      overflowG += water.freeChlorineMgL * (1 - left) * water.volumeM3;
      water.dilute(left);
      water.loadMgL += broughtMgL;
    }
    return overflowG + organics.arrive(unixTimeS, dtS, open()) + fresh.replace(unixTimeS, open());
  }

  /**
   * Chlorine, heat and carbon dioxide in all bodies of water; returns the free chlorine lost, g.
   */
  private double react(double dtS) {
    double lostG = organics.react(dtS, open());
    algae.live(hydraulics.bulk, dtS);
    for (Water water : open()) {
      lostG += (underSun(water, dtS) + algae.take(water, dtS)) * water.volumeM3;
      gas.breathe(water, dtS, doser.strippingFraction());
      heat.stepOpen(water, dtS, sky.solarWM2(), weather.airC(), sky.cloudOctas());
    }
    for (Water water : new Water[] {hydraulics.probeLine, hydraulics.returnLine}) {
      lostG += loss.stepLine(water, dtS) * water.volumeM3;
      if (hydraulics.flowM3S() <= 0) {
        heat.stepLine(water, dtS, weather.airC());
      }
    }
    return lostG;
  }

  private double underSun(Water water, double dtS) {
    if (sunLaw.plain()) {
      return loss.stepOpen(water, dtS, sky.ultravioletFraction());
    }
    double solarHour = Sky.solarHour(unixTimeS, settings.climate().sky().longitudeDeg());
    return loss.stepOpenAt(water, dtS, sunLaw.perS(water, sky.ultravioletFraction(), solarHour));
  }

  /** The water that is open to the sky. */
  private Water[] open() {
    return new Water[] {hydraulics.bulk, hydraulics.inlet};
  }

  private Fed feed(double dtS, Outputs outputs) {
    double chlorine = faults.command(Output.CHLORINE, outputs.chlorine(), unixTimeS);
    double acidDuty = faults.command(Output.ACID, outputs.acid(), unixTimeS);
    boolean flows = hydraulics.flowM3S() > 0;
    return doser.feed(dtS, chlorine, flows, hydraulics.returnLine).plus(acid.feed(dtS, acidDuty));
  }

  private void stepProbes(double dtS, boolean outputOn) {
    orp.step(dtS, hydraulics.probeLine, outputOn);
    glass.step(dtS, hydraulics.probeLine);
    thermometer.step(dtS, hydraulics.probeLine);
    if (settings.instruments().flowMeter()) {
      meterNoise.advance(dtS);
    }
    if (settings.instruments().fitted().contains(Role.SOLAR_W_M2)) {
      solarNoise.advance(dtS);
    }
  }

  private Signals readSignals() {
    Map<Role, Signal> healthy = new EnumMap<>(Role.class);
    healthy.put(Role.ORP_MV, new Signal.Analog(orp.readingMv()));
    healthy.put(Role.PH_MV, new Signal.Analog(glass.readingMv()));
    healthy.put(Role.WATER_C, new Signal.Analog(thermometer.readingC()));
    healthy.put(Role.FLOW, flowSignal());
    healthy.put(Role.PUMP_ON, new Signal.Contact(hydraulics.pumpRuns()));
    healthy.put(Role.SOLAR_W_M2, new Signal.Analog(sky.solarWM2() * (1 + solarNoise.value())));
    healthy.put(Role.ACID_TANK_LOW, new Signal.Contact(acid.tankLow()));
    healthy.putAll(doser.signals());
    Map<Role, Signal> seen = new EnumMap<>(Role.class);
    for (Role role : settings.instruments().fitted()) {
      Signal signal = healthy.get(role);
      if (signal != null) {
        seen.put(role, faults.signal(role, signal, unixTimeS));
      }
    }
    return Signals.of(seen);
  }

  private Signal flowSignal() {
    double flowLMin = hydraulics.flowLMin();
    return settings.instruments().flowMeter()
        ? new Signal.Analog(flowLMin * (1 + meterNoise.value()))
        : new Signal.Contact(flowLMin > 0);
  }

  /** The pool's time, Unix s. */
  public double unixTimeS() {
    return unixTimeS;
  }

  /** The signals that the field sees at the pool's present time, for the fitted roles. */
  public Signals signals() {
    return signals;
  }

  /** Whether water moves past the probes. */
  public boolean flows() {
    return hydraulics.flowM3S() > 0;
  }

  /** Adds a fault; more than one may be active. */
  public void inject(PlantFault fault) {
    faults.add(fault);
  }

  /** Adds bathers, in addition to those who come at random. */
  public void bathe(int people, double fromUnixS, double untilUnixS) {
    bathers.invite(people, fromUnixS, untilUnixS);
  }

  /** A person pours hydrochloric acid of 31.45 % (10.01 mol/L [memory]) around the pool, mL. */
  public void pourAcid(double acidMl) {
    double acidMol = acidMl / 1000 * 10.01;
    hydraulics.bulk.add(new Fed(0, 0, 58.443 * acidMol, -acidMol), 1);
  }

  /**
   * A person pours hypochlorite around the pool, g Cl2. It is not in the account of what was fed.
   */
  public void pourChlorine(double chlorineG) {
    hydraulics.bulk.add(LiquidFeeder.fresh(chlorineG), 1);
  }

  /**
   * A person tests the pool's water.
   *
   * @param seed seed for the kit's errors
   */
  public WaterTest test(long seed) {
    // Random itself gives similar first values for neighbouring seeds
    return WaterTest.of(truth(), new Random(new SplittableRandom(seed).nextLong()));
  }

  public Truth truth() {
    Water bulk = hydraulics.bulk;
    double chlorineG = 0;
    for (Water water : hydraulics.bodies()) {
      chlorineG += water.freeChlorineMgL * water.volumeM3;
    }
    return new Truth(
        unixTimeS,
        bulk.freeChlorineMgL,
        chlorineG / settings.basin().volumeM3(),
        bulk.combinedChlorineMgL,
        bulk.hoclMgL,
        bulk.ph,
        bulk.temperatureC,
        bulk.cyanuricAcidMgL,
        bulk.alkalinityMmolL * CALCIUM_CARBONATE_MG_MMOL,
        bulk.saltMgL,
        sky.solarWM2(),
        sky.cloudOctas(),
        weather.airC(),
        weather.rainMmH(),
        bathers.present(unixTimeS),
        hydraulics.flowLMin(),
        chlorineGivenG,
        chlorineLostG,
        acid.givenMl(),
        demandMgLDay);
  }
}
