package limnostat.config;

import java.nio.file.Path;

/**
 * The database.
 *
 * @param file SQLite file; its directory must exist and be writable
 * @param readingsEveryS one row of readings this often, s
 * @param keepReadingsDays readings older than this are removed, days
 */
public record LedgerSettings(Path file, double readingsEveryS, int keepReadingsDays) {}
