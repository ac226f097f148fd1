/**
 * The configuration file as checked records. This is the only place where units that a person
 * writes are converted.
 *
 * <p>{@code Options} declares every option once. {@code Reader} parses each by its {@code Form} and
 * refuses unknown keys. {@code CrossChecks} and {@code BoardRelations} check the rules between
 * options. {@code SettingsBuilder} fills the records once there are no faults. {@link
 * limnostat.config.ConfigurationFile} runs them in this order and reports all faults at once.
 *
 * <p>The kind of tablet in a feeder has no default ({@code chlorine.tablet}). Trichlor and calcium
 * hypochlorite differ in everything that the slow account tracks, and they must never be mixed.
 */
package limnostat.config;
