/**
 * The cause-and-effect matrix (IEC 62881) and what it is evaluated from. It takes a demand and
 * returns what is left of it, and why. Pure.
 *
 * <p>{@code Cause} is the matrix: one row a cause, and nothing else decides what an output may do.
 * {@code Detection} says which conditions hold. {@code Interlocks} applies delays, latches and
 * effects. Effects only take away, so their order does not matter. A missing input counts as the
 * cause being present.
 *
 * <ul>
 *   <li><b>{@code flow_stuck} does not latch.</b> It ends only by what proves the switch: flow seen
 *       to stop. It rests on the matrix's own active causes, which are saved, and so survives a
 *       restart. A simulated or an outside pool may run its pump as it likes, so the program's
 *       request counts as a sign of the pump only with a relay of its own.
 *   <li><b>{@code ph_disagrees} inhibits acid at the first test that reads lower than the
 *       electrode.</b> A misread kit costs some days without acid; a drifted electrode costs weeks
 *       of too much. It does not limit chlorine: pH moves the expected ORP weakly, and the tests
 *       may be what is wrong.
 *   <li><b>{@code acid_no_response} does not latch.</b> A test that agrees ends it, which anybody
 *       may send. It has an hour to mix, so it always comes between two turns of acid.
 *   <li><b>{@code output_not_driven} does not latch.</b> A board that comes up a second after the
 *       program would otherwise need a person. The outputs stay off until a write succeeds and flow
 *       is proven again.
 *   <li><b>{@code test_overdue} touches no output.</b> To limit the feed after a month without a
 *       test would rest on the same electrode, and nobody is there to see the pool starve.
 *   <li><b>No response is judged by plain signs against the setpoint</b> (S10), not by what the
 *       filter believes: a filter explains a dead output away within a day (gain down, losses up).
 *       What is fed while ORP is out counts. The trip shows for one scan and the count begins anew,
 *       so that a reset is granted at once and a fault that is still there takes as much again.
 *   <li><b>A function check is a state of the interlocks, not a mode</b>: the mode is what to come
 *       back to.
 *   <li><b>The options are in the saved state as people write them</b> ({@code Configured}), some 4
 *       kB, not as a digest. So what changed can be named, and it cannot part from the state that
 *       was made with it.
 *   <li><b>A process that ends is counted by the next one</b> ({@code RunHealth}). What the saved
 *       state says is how the last process ended. Ends age by running time and proved outages, so
 *       power that comes and goes is a loop too. A process that ends before its first scan never
 *       had an output on. The inhibit ends by itself, since a pool without chlorine is no safe
 *       state for days; the alarm stays.
 * </ul>
 */
package limnostat.safety;
