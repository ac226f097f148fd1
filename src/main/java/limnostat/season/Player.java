package limnostat.season;

import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Arrays;
import java.util.Optional;
import limnostat.plant.Pool;

/** The participants. The first is the program; the last is the reference for all. */
public enum Player {
  PROGRAM("limnostat", "the program") {
    @Override
    Contestant enter(Site site, Pool pool) {
      return new Program(site.configured());
    }
  },
  FIXED("fixed_output", "fixed output, turned by hand at each test by target over result") {
    @Override
    Contestant enter(Site site, Pool pool) {
      return new FixedOutput(site.configured());
    }
  },
  ON_OFF("orp_on_off", "on and off 5 mV around an ORP setpoint set at the first test") {
    @Override
    Contestant enter(Site site, Pool pool) {
      return new OrpOnOff(site.configured());
    }
  },
  PI("orp_pi", "PI on ORP about the same setpoint, with the program's gain and integral time") {
    @Override
    Contestant enter(Site site, Pool pool) {
      return new OrpPi(site.configured());
    }
  },
  CLAIRVOYANT("clairvoyant", "knows truth and future, rides the lower edge of the band") {
    @Override
    Contestant enter(Site site, Pool pool) {
      return new Clairvoyant(site, pool);
    }
  };

  private final String key;
  private final String description;

  Player(String key, String description) {
    this.key = key;
    this.description = description;
  }

  /** Its key in JSON and as an option. */
  @JsonValue
  public String key() {
    return key;
  }

  public static Optional<Player> ofKey(String key) {
    return Arrays.stream(values()).filter(player -> player.key.equals(key)).findFirst();
  }

  /** Its label for people. */
  String label() {
    return key.replace('_', ' ');
  }

  String description() {
    return description;
  }

  /**
   * @param pool the pool that it will control; only the clairvoyant may look into it
   */
  abstract Contestant enter(Site site, Pool pool);
}
