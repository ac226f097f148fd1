/**
 * Every fault that can be made from the field, one by one, on a simulated pool that is being fed.
 * The report shows how soon the output is safe, what is fed until then, whether the fault is named,
 * and how the plant recovers.
 */
package limnostat.faults;
