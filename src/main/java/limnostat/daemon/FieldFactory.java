package limnostat.daemon;

import limnostat.config.Configuration;
import limnostat.config.FieldSettings;
import limnostat.estimate.EstimateSettings;
import limnostat.field.Field;
import limnostat.field.FieldException;
import limnostat.field.SimulatedField;
import limnostat.field.board.BoardField;
import limnostat.measure.FlowSensor;
import limnostat.plant.PlantSettings;
import limnostat.plant.Pool;

/**
 * Opens the field that the configuration names. For a simulated field, nothing of the board's
 * driver is loaded.
 */
public final class FieldFactory {
  private FieldFactory() {}

  public static Field open(Configuration configuration, double unixTimeS) throws FieldException {
    if (configuration.field() instanceof FieldSettings.Board board) {
      return BoardField.open(board);
    }
    FieldSettings.Simulated simulated = (FieldSettings.Simulated) configuration.field();
    return new SimulatedField(new Pool(plant(configuration, simulated.seed()), unixTimeS));
  }

  /**
   * A simulated pool with the configured size, place and inputs. It has its own demand and probes.
   */
  public static PlantSettings plant(Configuration configuration, long seed) {
    EstimateSettings pool = configuration.scan().estimate();
    boolean meter = configuration.scan().measure().flow() instanceof FlowSensor.Meter;
    PlantSettings domestic = PlantSettings.domestic(seed);
    PlantSettings.Basin home = domestic.basin();
    return domestic
        .withVolumeM3(pool.volumeM3())
        .withPlace(pool.latitudeDeg(), pool.longitudeDeg())
        .withLabelGH(configuration.scan().chlorine().caps().ratePerH())
        .withWater(
            pool.freeChlorineMgL(),
            pool.slow().cyanuricAcidMgL().orElse(home.cyanuricAcidMgL()),
            pool.slow().saltMgL().orElse(home.saltMgL()))
        .withFitted(configuration.scan().measure().fitted(), meter);
  }
}
