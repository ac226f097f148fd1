/**
 * The configuration file as checked records; the only place where a person's units are converted.
 *
 * <p>{@code Options} declares every option once. {@code Reader} parses each by its {@code Form} and
 * refuses unknown keys, {@code CrossChecks} and {@code BoardRelations} judge what must hold between
 * options, {@code SettingsBuilder} fills the records once there is no fault. {@link
 * limnostat.config.ConfigurationFile} runs them in this order; all faults come at once.
 *
 * <p>What kind of tablet a tablet feeder holds has no default ({@code chlorine.tablet}). Trichlor
 * and calcium hypochlorite differ in all that the slow account is about, and must never meet.
 */
package limnostat.config;
