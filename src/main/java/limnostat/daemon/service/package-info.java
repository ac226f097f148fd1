/**
 * What the daemon reports to the service manager and to the log. Everything here is called from
 * threads that must not wait: no call blocks on the manager, the journal or the disk.
 *
 * <p>While outputs are not driven, the watchdogs get no signal. systemd then restarts the program
 * every 20 s, which frees a line that is stuck in this process and runs {@code outputs-off}. If a
 * board is simply absent, this is a restart loop, and the log says so.
 */
package limnostat.daemon.service;
