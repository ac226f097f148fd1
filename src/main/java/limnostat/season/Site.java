package limnostat.season;

import java.util.List;
import limnostat.plant.Hydraulics;
import limnostat.plant.PlantSettings;
import limnostat.plant.Pool;
import limnostat.scan.ScanSettings;

/**
 * One pool of a season: its true properties, its configuration, and its owner.
 *
 * @param number from 1
 * @param plant the true pool
 * @param configured what an installer configured
 * @param startUnixS start of the season, Unix s
 * @param survey the pool's losses over the season, for sizing its output and for the clairvoyant
 * @param habitUnixS when the owner tests without being asked, Unix s
 * @param manner how the owner responds to a request
 * @param hands what people pour without telling anybody
 * @param traits what is strange about it, for people
 */
record Site(
    int number,
    PlantSettings plant,
    ScanSettings configured,
    double startUnixS,
    Survey survey,
    List<Party> parties,
    TestKit kit,
    List<Double> habitUnixS,
    Answering manner,
    Hands hands,
    List<String> traits) {

  Site {
    parties = List.copyOf(parties);
    habitUnixS = List.copyOf(habitUnixS);
    traits = List.copyOf(traits);
  }

  /** Guests in addition to the bathers who come at random. */
  record Party(int people, double fromUnixS, double untilUnixS) {}

  /** Whether the circulation pump is really running at a time. */
  boolean pumpRuns(double unixTimeS) {
    return plant.hydraulics().pump() instanceof Hydraulics.Pump.OwnTimers timers
        ? timers.runs(unixTimeS, plant.climate().sky().longitudeDeg())
        : configured.control().pumpWanted(unixTimeS);
  }

  Band band() {
    return Band.around(configured.control().freeChlorineTargetMgL());
  }

  /** The pool at the start of the season. Each contestant gets its own copy. */
  Pool open() {
    return open(plant, parties, startUnixS);
  }

  static Pool open(PlantSettings plant, List<Party> parties, double startUnixS) {
    Pool pool = new Pool(plant, startUnixS);
    parties.forEach(p -> pool.bathe(p.people(), p.fromUnixS(), p.untilUnixS()));
    return pool;
  }
}
