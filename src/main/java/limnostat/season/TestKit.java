package limnostat.season;

import limnostat.plant.Truth;

/** What an owner tests with. At one moment every contestant gets the same result. */
sealed interface TestKit permits Kit, HouseholdKit {
  KitTest test(Truth truth);
}
