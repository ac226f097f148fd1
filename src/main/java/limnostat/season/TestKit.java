package limnostat.season;

import limnostat.plant.Truth;

/** What an owner tests with: one moment gives one result, whoever plays. */
sealed interface TestKit permits Kit, HouseholdKit {
  KitTest test(Truth truth);
}
