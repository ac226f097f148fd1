/**
 * The daemon's own cycle on a simulated pool, in simulated time, shown as a table. It uses the
 * shipped option file, so that the file stays valid.
 */
package limnostat.demo;
