/**
 * The estimate of the water, each value with its deviation: free chlorine, the pool's demand, the
 * output's true gain, the electrode, and what changes over weeks. Pure.
 *
 * <p>The filter's equations are in its classes. Measurements of earlier filters, and what was tried
 * and rejected, are in {@code src/site/markdown/experiments.md}. These decisions do not depend on
 * the filter:
 *
 * <ul>
 *   <li><b>The slow account is a stage before the filter</b> ({@code SlowAccount}). It needs only
 *       what was fed and the time, is updated once an hour, and passes one value to the filter,
 *       stabiliser. Its deviation grows with time, not with its square root: an unknown rate is the
 *       same tomorrow.
 *   <li><b>The further a test is from the slow account, the more it counts.</b> The variance is at
 *       least the squared difference minus the test's own. Stabiliser is added by hand and lost
 *       with drained water, which no account sees. A plain Kalman gain would take several tests to
 *       follow.
 *   <li><b>The sun counts relative to the usual sky</b> ({@code SunOnWater}). The shape is geometry
 *       × f/f̄, with f what the clouds let through and f̄ its mean over a month, not geometry × f.
 *       So the learned loss means the same with and without a sensor, and the demand does not jump
 *       when a sensor is fitted or fails. The factors of the sensor and of the clear-sky model
 *       cancel. Clouds absorb less ultraviolet than light: f is light's fraction to the power 0.7
 *       (from memory). The clear-sky model is Haurwitz', while the simulated sky is Kasten and
 *       Czeplak's.
 *   <li><b>The sun's position is the program's own code</b> ({@code Sun}, NOAA's long form).
 *       Bit-identical replay on every machine needs StrictMath. The tests compare it with a
 *       reference library.
 *   <li><b>A forecast is a start time and a list of hours.</b> 72 hours with a timestamp each would
 *       exceed the 4 kB of a command, and a list has neither gaps nor overlaps. It is part of the
 *       saved state.
 *   <li><b>A cover that cannot be read keeps its last state for three hours</b>, so that a cut
 *       cable does not raise the feed at once. After that it counts as open, as without a switch.
 *       If it counted as closed forever, the pool would starve.
 *   <li><b>A failed thermometer gives way to the configured temperature</b>, not to its last value.
 *       The effect of a 5 °C error on ORP and on the losses is added to the variances. While the
 *       water at the probe stands still, the last value stays.
 *   <li><b>The filter learns what kind of electrode it has</b> ({@code Electrode}, {@code
 *       Mixture}). A single figure for how far ORP can be trusted is too high for some electrodes
 *       and too low for others. Weights by ORP fade within days and are bounded; weights by tests
 *       last. So thousands of readings never outvote a person.
 *   <li><b>A low test counts fully and at once; one far above counts in part until the next</b>
 *       ({@code TestVerdict}), and at the high limit inhibits chlorine for a day at most.
 *   <li><b>A request for a test because free chlorine is uncertain stays until somebody tests</b>
 *       ({@code TestDue}), since the deviation goes up and down with every correction.
 * </ul>
 */
package limnostat.estimate;
