/**
 * Alarms by ISA-18.2. They read the causes of the matrix and drive no output. Pure.
 *
 * <ul>
 *   <li><b>Silences lie over the state.</b> Shelved, suppressed and out of service stand beside the
 *       state underneath, so that the end of a silence is a plain step.
 *   <li><b>A shelf ends by running time or by a trusted wall clock</b>, whichever is first. An
 *       outage that nobody can prove must not keep an alarm silent for longer.
 *   <li><b>Suppression is a table</b> ({@link limnostat.alarm.Suppression}), shown only where there
 *       is something to suppress. Otherwise each night would be a page of transitions. After it,
 *       what a person has seen before need not be seen again, or a dead probe would call each
 *       morning. The standard leads to normal or unacknowledged only (from memory).
 *   <li><b>Out of service is set in the file only.</b> It is for maintenance, it lasts, and it must
 *       not be reached over a network.
 * </ul>
 */
package limnostat.alarm;
