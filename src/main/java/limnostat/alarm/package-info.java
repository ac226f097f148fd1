/**
 * Alarms by ISA-18.2. They read the causes of the matrix and drive no output. Pure.
 *
 * <ul>
 *   <li><b>Silences are layered over the state.</b> Shelved, suppressed and out of service are
 *       stored beside the underlying state, so the end of a silence is an ordinary step.
 *   <li><b>A shelf ends by running time or by a trusted wall clock</b>, whichever is first. An
 *       outage that cannot be proven must not keep an alarm silent for longer.
 *   <li><b>Suppression is a table</b> ({@link limnostat.alarm.Suppression}). It is shown only where
 *       there is something to suppress; otherwise each night would fill a page with transitions.
 *       After it, an alarm that was acknowledged before need not be acknowledged again; otherwise a
 *       dead probe would call someone each morning. The standard leads only to normal or
 *       unacknowledged (from memory).
 *   <li><b>Out of service is set in the file only.</b> It is for maintenance, it has no end time,
 *       and it must not be accessible over a network.
 * </ul>
 */
package limnostat.alarm;
