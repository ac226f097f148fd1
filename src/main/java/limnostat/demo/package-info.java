/**
 * The daemon's own cycle on a simulated pool, in simulated time, told as a table. It runs on the
 * shipped option file, so that the file cannot rot.
 */
package limnostat.demo;
