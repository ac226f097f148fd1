/**
 * What the daemon says to the service manager and to the log. Everything here is called from
 * threads that must not wait: no call blocks on the manager, the journal or the disk.
 */
package limnostat.cli.service;
