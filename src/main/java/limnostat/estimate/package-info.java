/**
 * What the water is believed to be, each value with its deviation: free chlorine, the pool's
 * demand, the output's true gain, the electrode, and what changes over weeks. Pure.
 *
 * <p>The filter's equations are in its classes. What was measured of earlier filters, and what was
 * tried and left out, is in {@code src/site/markdown/experiments.md}. These decisions do not depend
 * on the filter:
 *
 * <ul>
 *   <li><b>The slow account is a stage before the filter</b> ({@code SlowAccount}). It needs only
 *       what was fed and the time, moves on once an hour and hands the filter one figure,
 *       stabiliser. Its deviation grows with time, not with its root: rates that nobody knows are
 *       the same tomorrow.
 *   <li><b>A test far off the slow account is believed the more.</b> The variance is at least the
 *       squared surprise less the test's own. Stabiliser comes in by hand and goes with drained
 *       water, which no account sees, and a plain Kalman gain would take several tests to follow.
 *   <li><b>The sun counts against the usual sky</b> ({@code SunOnWater}). The shape is geometry ×
 *       f/f̄, with f what the clouds leave and f̄ the mean of a month, not geometry × f. So the
 *       learned loss means the same with and without a sensor, and the demand does not jump when a
 *       sensor is fitted or fails. The factors of the sensor and of the clear-sky model cancel.
 *       Clouds take less ultraviolet than light: f is light's fraction to the power 0.7 (from
 *       memory). The clear sky is Haurwitz', as the simulated sky is Kasten and Czeplak's.
 *   <li><b>The sun's position is own code</b> ({@code Sun}, NOAA's long form). Replay that is
 *       identical bit by bit on every machine needs StrictMath. The tests compare it with a
 *       reference library.
 *   <li><b>A forecast is a begin and a list of hours.</b> 72 hours with a stamp each would pass the
 *       4 kB of a command, and a list has neither gaps nor overlaps. It is in the saved state.
 *   <li><b>A cover that cannot be read stays as it was for three hours</b>, so that a cut cable
 *       raises nothing at once. After that it is open, as where there is no switch: held closed for
 *       ever it would starve the pool.
 *   <li><b>A failed thermometer gives way to the configured temperature</b>, not to its last value.
 *       What 5 °C of error mean for ORP and for the losses is added to the variances. While water
 *       stands at the probe the last value stays.
 *   <li><b>Which electrode it is, is found out</b> ({@code Electrode}, {@code Mixture}). One figure
 *       for how far ORP may be believed is wrong both ways. Weights by ORP fade within days and are
 *       bounded, weights by tests last, so that readings by the thousand never outvote a person.
 *   <li><b>A low test counts wholly and at once; one far above counts in part until the next</b>
 *       ({@code TestVerdict}), and at the high limit inhibits chlorine for a day at most.
 *   <li><b>That free chlorine is uncertain stays asked for until somebody tests</b> ({@code
 *       TestDue}), since the deviation comes and goes with every correction.
 * </ul>
 */
package limnostat.estimate;
