/**
 * A season on simulated pools: the program and its peers, each on a copy of the same pool with the
 * same weather, people and probes.
 *
 * <p>It runs the same scan as the daemon. Nothing in {@code estimate}, {@code control} or any other
 * stage knows of it. The truth stays in this package: a contestant gets signals and a person's
 * tests, and only the clairvoyant gets the pool itself.
 *
 * <ul>
 *   <li><b>The clairvoyant plans backwards</b>: R(t) = max(edge, R(t + dt) + loss − most that can
 *       be fed), from the losses that a survey of the same pool measured near the target. So it
 *       feeds as late and as little as the pump's hours allow. This also identifies the pools that
 *       even it cannot keep in the band.
 *   <li><b>The peers get the installer's figures, the program's relays and the same tests.</b> The
 *       owner and the kit belong to the simulated truth, and no stage of a scan imports any of it.
 *   <li><b>{@code near}</b>: the kit scatters by only 4 % (0.4 of the common 0.2 mg/L or 10 %,
 *       whichever is more) and has neither bias nor steps. The target is 3.5 mg/L, or 4 mg/L from
 *       50 mg/L of configured stabiliser. The owner with {@code --answering} tests when the probes
 *       are fitted and then only when asked, at most once a week on average. Otherwise asking could
 *       only add tests. All engineering judgement.
 * </ul>
 */
package limnostat.season;
