/**
 * The cause-and-effect matrix (IEC 62881) and its inputs. It takes a demand and returns what is
 * left of it, and why. Pure.
 *
 * <p>{@code Cause} is the matrix, with one row per cause. Nothing else decides what an output may
 * do. {@code Detection} says which conditions hold. {@code Interlocks} applies delays, latches and
 * effects. Effects only reduce an output, so their order does not matter. A missing input counts as
 * the cause being present.
 *
 * <ul>
 *   <li><b>{@code flow_stuck} does not latch.</b> It ends only when flow is seen to stop, which
 *       proves the switch. It depends on the matrix's own active causes, which are saved, so it
 *       survives a restart. A simulated or external pool may run its pump independently, so the
 *       program's request counts as a sign of the pump only with a relay of its own.
 *   <li><b>{@code ph_disagrees} inhibits acid at the first test that reads lower than the
 *       electrode.</b> A misread kit costs some days without acid; a drifted electrode costs weeks
 *       of too much acid. It does not limit chlorine: pH affects the expected ORP only weakly, and
 *       the tests may be what is wrong.
 *   <li><b>{@code acid_no_response} does not latch.</b> A test that agrees ends it, and anybody may
 *       enter one. The acid has an hour to mix, so the trip always comes between two acid doses.
 *   <li><b>{@code output_not_driven} does not latch.</b> A board that comes up a second after the
 *       program would otherwise need a manual reset. The outputs stay off until a write succeeds
 *       and flow is proven again.
 *   <li><b>{@code test_overdue} affects no output.</b> Limiting the feed after a month without a
 *       test would depend on the same electrode, and nobody would be there to notice that the pool
 *       runs out of chlorine.
 *   <li><b>A missing response is judged by simple tests against the setpoint</b> (S10), not by the
 *       filter's estimate: a filter explains a dead output away within a day (gain down, losses
 *       up). Chlorine fed while ORP is unavailable counts. The trip is present for one scan, and
 *       the count starts again. So a reset is granted at once, and a fault that is still there
 *       takes the same amount again.
 *   <li><b>A function check is a state of the interlocks, not a mode</b>: the mode is kept to
 *       return to.
 *   <li><b>The saved state holds the options as people write them</b> ({@code Configured}), some 4
 *       kB, not as a digest. So the changes can be named, and the options cannot be separated from
 *       the state that was made with them.
 *   <li><b>A process that ends is counted by the next one</b> ({@code RunHealth}). The saved state
 *       says how the last process ended. Ends age by running time and proven outages, so power that
 *       comes and goes counts as a loop too. A process that ends before its first scan never had an
 *       output on. The inhibit ends by itself, because a pool without chlorine for days is not a
 *       safe state; the alarm stays.
 * </ul>
 */
package limnostat.safety;
