/**
 * What the daemon says to the service manager and to the log. Everything here is called from
 * threads that must not wait: no call blocks on the manager, the journal or the disk.
 *
 * <p>The watchdogs get nothing while outputs are not driven. systemd then restarts the program
 * every 20 s, which frees a line that is stuck in this process and runs {@code outputs-off}. A
 * board that is simply absent is a restart loop, and says so.
 */
package limnostat.daemon.service;
