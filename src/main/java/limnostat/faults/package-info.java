/**
 * Every fault that can be made from the field, one by one, on a simulated pool that is being fed:
 * how soon the output is safe, what goes in until then, whether the fault is named, and how the
 * plant comes back.
 */
package limnostat.faults;
