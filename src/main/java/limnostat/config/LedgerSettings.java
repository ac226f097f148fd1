package limnostat.config;

import java.nio.file.Path;

/**
 * The database.
 *
 * @param file SQLite file; its directory must exist and be writable
 * @param readingsEveryS interval between rows of readings, s
 * @param keepReadingsDays age at which readings are removed, days
 */
public record LedgerSettings(Path file, double readingsEveryS, int keepReadingsDays) {}
