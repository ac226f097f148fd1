/**
 * A season on simulated pools: the program and its peers, each on a copy of the same pool with the
 * same weather, people and probes.
 *
 * <p>It drives the same scan as the daemon; nothing of {@code estimate}, {@code control} or any
 * other stage knows of it. What it knows of the truth stays here: a contestant is handed signals
 * and a person's tests, and only the clairvoyant is given the pool itself.
 *
 * <ul>
 *   <li><b>The clairvoyant plans backwards</b>: R(t) = max(edge, R(t + dt) + loss − most that can
 *       be fed), from the losses that a survey of the same pool found about the target. So it feeds
 *       as late and as little as the pump's hours allow, and a pool that even it cannot hold is
 *       known as such.
 *   <li><b>The peers get the installer's figures, the program's relays and the same tests.</b> The
 *       owner and the kit are on the truth's side, and no stage of a scan imports any of it.
 *   <li><b>{@code near}</b>: a kit too scatters by 4 % (0.4 of the common 0.2 mg/L or 10 %,
 *       whichever is more) and has neither bias nor steps. Targets are 3.5 mg/L, or 4 mg/L from 50
 *       mg/L of configured stabiliser. The owner who answers ({@code --answering}) tests when the
 *       probes are fitted and then only when asked, at most once a week on average; otherwise
 *       asking could only add tests. All engineering judgement.
 * </ul>
 */
package limnostat.season;
