/**
 * A season on simulated pools: the program and its peers, each on a copy of the same pool with the
 * same weather, people and probes.
 *
 * <p>It drives the same scan as the daemon; nothing of {@code estimate}, {@code control} or any
 * other stage knows of it. What it knows of the truth stays here: a contestant is handed signals
 * and a person's tests, and only the clairvoyant is given the pool itself.
 */
package limnostat.cli.simulate;
