package limnostat.plant;

import java.util.EnumSet;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.SplittableRandom;
import limnostat.measure.Role;

/**
 * The complete settings of a simulated pool.
 *
 * @param seed seed for weather, people and noise
 */
public record PlantSettings(
    long seed,
    Basin basin,
    Climate climate,
    Bathers.Settings bathers,
    ChlorineLoss.Settings loss,
    Hydraulics.Settings hydraulics,
    Feeders feeders,
    Instruments instruments,
    Strangeness strange) {

  /** A plain pool, with nothing strange about it. */
  public PlantSettings(
      long seed,
      Basin basin,
      Climate climate,
      Bathers.Settings bathers,
      ChlorineLoss.Settings loss,
      Hydraulics.Settings hydraulics,
      Feeders feeders,
      Instruments instruments) {
    this(seed, basin, climate, bathers, loss, hydraulics, feeders, instruments, Strangeness.NONE);
  }

  /**
   * The pool and its water at the start.
   *
   * @param volumeM3 volume including pipes, m³
   * @param depthM mean depth, m
   * @param freeChlorineMgL mg/L
   * @param ph pH
   * @param totalAlkalinityMgL mg/L as CaCO3
   * @param cyanuricAcidMgL mg/L
   * @param saltMgL mg/L
   * @param waterC °C; absent: typical of the season
   */
  public record Basin(
      double volumeM3,
      double depthM,
      double freeChlorineMgL,
      double ph,
      double totalAlkalinityMgL,
      double cyanuricAcidMgL,
      double saltMgL,
      OptionalDouble waterC) {}

  /** Influences from outside, and exchange through the surface. */
  public record Climate(
      Sky.Settings sky, Weather.Settings weather, Heat.Settings heat, Carbonate.Settings gas) {}

  /** The chlorine and acid feeders. */
  public record Feeders(DoserSettings chlorine, AcidFeeder.Settings acid) {}

  /**
   * The sensors.
   *
   * @param flowMeter whether {@link Role#FLOW} is a meter, L/min, instead of a switch
   * @param fitted the roles that are wired
   */
  public record Instruments(
      OrpElectrode.Settings orp,
      GlassElectrode.Settings ph,
      Thermometer.Settings thermometer,
      boolean flowMeter,
      Set<Role> fitted) {
    public Instruments {
      fitted = Set.copyOf(fitted);
    }
  }

  /**
   * A garden pool in a temperate climate: 50 m³, 1.4 m deep, a salt cell of 20 g/h, and a demand of
   * 2–3 mg/L on a summer day. Everything about it is fixed; the seed affects only weather, people
   * and noise.
   */
  public static PlantSettings domestic(long seed) {
    return new PlantSettings(
        seed,
        new Basin(50, 1.4, 2, 7.5, 90, 30, 3500, OptionalDouble.empty()),
        new Climate(
            new Sky.Settings(46, 8, -0.3, 1.6, 1.0),
            new Weather.Settings(11, 10, 5, 2.5, 0.2, 1.5),
            new Heat.Settings(0.8, 22, 70, 4),
            new Carbonate.Settings(0.12, 0.4)),
        new Bathers.Settings(1.2, 4, 5.5),
        new ChlorineLoss.Settings(2e-4, 1.2e-3, 5e-7, 1.0, 0.30, 0.8, 9, 0.05, 0.5, 0.15, 0.5),
        new Hydraulics.Settings(new Hydraulics.Pump.OnRequest(), 5, 0.1, 1.5, 4, 0.15, 0.05, 1),
        new Feeders(
            new DoserSettings.SaltCell(20, 5, 0.8, 0.92, 28, 0.03),
            new AcidFeeder.Settings(1000, 10.01, 20_000)),
        new Instruments(
            new OrpElectrode.Settings(780, 12, 55, -15, 4, 0.1, 0.001, 1, 2),
            new GlassElectrode.Settings(-4, 0.98, 0.01, 0.2, 0.5),
            new Thermometer.Settings(0.2, 0.02, 30),
            false,
            EnumSet.of(
                Role.ORP_MV,
                Role.PH_MV,
                Role.WATER_C,
                Role.FLOW,
                Role.CELL_A,
                Role.CELL_V,
                Role.PUMP_ON)));
  }

  /**
   * A pool drawn at random around the domestic one.
   *
   * @param seed seed for the draw and for weather, people and noise
   * @param spread 0: the domestic pool; 1: the whole range found in practice
   */
  public static PlantSettings random(long seed, double spread) {
    PlantSettings home = domestic(seed);
    Draw draw = new Draw(new SplittableRandom(seed), spread);
    OrpElectrode.Settings orp = home.instruments.orp;
    GlassElectrode.Settings glass = home.instruments.ph;
    ChlorineLoss.Settings loss = home.loss;
    Hydraulics.Settings hydraulics = home.hydraulics;
    double volumeM3 = draw.of(50, 20, 120);
    double outputFactor = draw.of(0.92, 0.75, 1.25);
    return new PlantSettings(
        seed,
        new Basin(
            volumeM3,
            draw.of(1.4, 1.0, 1.9),
            draw.of(2, 0.5, 4),
            draw.of(7.5, 7.1, 7.9),
            draw.of(90, 60, 150),
            draw.of(30, 0, 80),
            draw.of(3500, 2500, 5000),
            OptionalDouble.empty()),
        new Climate(
            new Sky.Settings(draw.of(46, 28, 55), 8, draw.of(-0.3, -1, 0.7), 1.6, 1.0),
            new Weather.Settings(
                draw.of(11, 7, 15),
                draw.of(10, 6, 10),
                draw.of(5, 3, 8),
                2.5,
                draw.of(0.2, 0.05, 0.35),
                draw.of(1.5, 0.5, 5)),
            new Heat.Settings(draw.of(0.8, 0.7, 0.9), draw.of(22, 20, 32), 70, 4),
            new Carbonate.Settings(draw.of(0.12, 0.05, 0.5), draw.of(0.4, 0.1, 0.8))),
        new Bathers.Settings(draw.of(1.2, 0, 4) * volumeM3 / 50, 4, draw.of(5.5, 4.1, 7)),
        new ChlorineLoss.Settings(
            loss.hoclPerS(),
            loss.oclPerS(),
            draw.of(loss.boundPerS(), 1e-7, 1e-6),
            draw.of(loss.attenuationPerM(), 0.5, 2),
            draw.of(loss.darkPerDay(), 0.1, 0.6),
            draw.of(loss.steadyMgLDay(), 0.3, 2),
            draw.of(loss.doublingC(), 8, 10),
            draw.of(loss.linePerH(), 0.02, 0.2),
            draw.of(loss.loadHours(), 0.2, 2),
            draw.of(loss.combinedShare(), 0.05, 0.3),
            draw.of(loss.combinedPerDay(), 0.2, 1)),
        new Hydraulics.Settings(
            hydraulics.pump(),
            draw.of(5, 3, 8),
            draw.of(0.1, 0.05, 0.3),
            draw.of(1.5, 0.3, 3),
            draw.of(4, 1, 10),
            draw.of(0.15, 0.05, 0.4),
            draw.of(0.05, 0.03, 0.2),
            draw.of(1, 0.5, 5)),
        new Feeders(
            new DoserSettings.SaltCell(
                20 * volumeM3 / 50, 5, 0.8, outputFactor, 28, draw.of(0.03, 0, 0.2)),
            home.feeders.acid),
        new Instruments(
            new OrpElectrode.Settings(
                orp.levelMv(),
                draw.of(orp.offsetMv(), -60, 60),
                draw.of(orp.slopeMv(), 25, 70),
                draw.of(orp.slopePhMv(), -30, 0),
                draw.of(orp.lagMin(), 2, 10),
                draw.of(orp.driftMvDay(), -0.5, 0.5),
                draw.of(orp.foulingPerDay(), 0, 0.005),
                draw.of(orp.whiteMv(), 0.3, 3),
                draw.of(orp.wanderMv(), 0.5, 5)),
            new GlassElectrode.Settings(
                draw.of(glass.offsetMv(), -15, 15),
                draw.of(glass.slopeFraction(), 0.93, 1.0),
                draw.of(glass.driftMvDay(), -0.05, 0.05),
                draw.of(glass.whiteMv(), 0.1, 0.5),
                draw.of(glass.wanderMv(), 0.2, 1)),
            new Thermometer.Settings(draw.of(0.2, -0.5, 0.5), 0.02, draw.of(30, 10, 90)),
            home.instruments.flowMeter,
            home.instruments.fitted));
  }

  /** Draws uniformly between two ends, which the spread moves towards the domestic value. */
  private record Draw(SplittableRandom random, double spread) {
    double of(double domestic, double low, double high) {
      double drawn = low + (high - low) * random.nextDouble();
      return domestic + spread * (drawn - domestic);
    }
  }

  public PlantSettings withBasin(Basin with) {
    return new PlantSettings(
        seed, with, climate, bathers, loss, hydraulics, feeders, instruments, strange);
  }

  public PlantSettings withClimate(Climate with) {
    return new PlantSettings(
        seed, basin, with, bathers, loss, hydraulics, feeders, instruments, strange);
  }

  public PlantSettings withBathers(Bathers.Settings with) {
    return new PlantSettings(
        seed, basin, climate, with, loss, hydraulics, feeders, instruments, strange);
  }

  public PlantSettings withLoss(ChlorineLoss.Settings with) {
    return new PlantSettings(
        seed, basin, climate, bathers, with, hydraulics, feeders, instruments, strange);
  }

  public PlantSettings withHydraulics(Hydraulics.Settings with) {
    return new PlantSettings(
        seed, basin, climate, bathers, loss, with, feeders, instruments, strange);
  }

  public PlantSettings withDoser(DoserSettings with) {
    return new PlantSettings(
        seed,
        basin,
        climate,
        bathers,
        loss,
        hydraulics,
        new Feeders(with, feeders.acid),
        instruments,
        strange);
  }

  public PlantSettings withInstruments(Instruments with) {
    return new PlantSettings(
        seed, basin, climate, bathers, loss, hydraulics, feeders, with, strange);
  }

  public PlantSettings withStrangeness(Strangeness with) {
    return new PlantSettings(
        seed, basin, climate, bathers, loss, hydraulics, feeders, instruments, with);
  }

  /** Volume, m³. The flow is scaled with it, the feeder is not. */
  public PlantSettings withVolumeM3(double volumeM3) {
    return withBasin(
        new Basin(
            volumeM3,
            basin.depthM,
            basin.freeChlorineMgL,
            basin.ph,
            basin.totalAlkalinityMgL,
            basin.cyanuricAcidMgL,
            basin.saltMgL,
            basin.waterC));
  }

  /** Free chlorine, stabiliser and salt at the start, mg/L. */
  public PlantSettings withWater(double freeChlorineMgL, double cyanuricAcidMgL, double saltMgL) {
    return withBasin(
        new Basin(
            basin.volumeM3,
            basin.depthM,
            freeChlorineMgL,
            basin.ph,
            basin.totalAlkalinityMgL,
            cyanuricAcidMgL,
            saltMgL,
            basin.waterC));
  }

  /**
   * Latitude (north positive) and longitude (east positive), degrees. The climate does not change.
   */
  public PlantSettings withPlace(double latitudeDeg, double longitudeDeg) {
    Sky.Settings sky = climate.sky;
    return withClimate(
        new Climate(
            new Sky.Settings(
                latitudeDeg, longitudeDeg, sky.cloudiness(), sky.spell(), sky.passing()),
            climate.weather,
            climate.heat,
            climate.gas));
  }

  /** Chlorine output on the label, g/h. */
  public PlantSettings withLabelGH(double labelGH) {
    return withDoser(feeders.chlorine.withLabelGH(labelGH));
  }

  public PlantSettings withFeeders(Feeders with) {
    return new PlantSettings(
        seed, basin, climate, bathers, loss, hydraulics, with, instruments, strange);
  }

  /** Which roles are wired, and whether the flow sensor is a meter. */
  public PlantSettings withFitted(Set<Role> fitted, boolean flowMeter) {
    return withInstruments(
        new Instruments(
            instruments.orp, instruments.ph, instruments.thermometer, flowMeter, fitted));
  }
}
