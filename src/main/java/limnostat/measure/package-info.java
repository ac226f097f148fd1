/**
 * From raw signals to values with their NE 107 status: calibration, compensation, named tests, and
 * the check whether a value moves as water can. Pure.
 *
 * <ul>
 *   <li><b>A probe's bad time adds up, and good time reduces it at a quarter of the speed</b>
 *       ({@link limnostat.measure.Probe}). If each good sample restarted the count, a probe that is
 *       good for one scan a minute would never fail. An interruption, or a rest of the pump, clears
 *       values but not faults.
 *   <li><b>A fault is kept as it was when the probe failed</b> ({@link limnostat.measure.Fault}),
 *       so that an alarm's text does not change and is published once.
 *   <li><b>The freeze test of pH uses the electrode's own signal.</b> Temperature compensation
 *       alone moves a dead electrode's pH out of its band whenever the water warms by 0.4 °C in an
 *       hour. The band is at least one and a half steps of the board's converter.
 *   <li><b>Temperature and pH are checked against bounds, not against a prediction</b> ({@link
 *       limnostat.measure.Envelope}): a set-membership observer. Its bounds move apart with time,
 *       and accepted values draw them in. What is unknown about a pool (depth, heater, wind,
 *       aeration) is taken at its worst. So nothing has to be configured and no healthy pool is
 *       doubted. The price is that slow drifts go unnoticed. A prediction would have to learn each
 *       of these unknowns, and a false alarm of a thermometer limits the output. A doubted value is
 *       tracked by bounds of its own, so that growing bounds alone never make a wrong value right.
 *   <li><b>A doubted temperature stays a value</b> (out of specification, not fresh), so that
 *       {@code water_hot} and {@code water_cold} still use it: a doubt never removes an inhibit.
 *       Everything else gets the configured temperature ({@link limnostat.measure.Upkeep}), also
 *       while the pump is off.
 *   <li><b>pH that moved up stays doubted until a test</b>. If it moved down, a day is enough. Acid
 *       or soda ash that a person adds looks like a failing electrode, and only a test can tell
 *       them apart. Without an acid output nothing is fed by pH and dosing by hand is normal, so pH
 *       is not checked.
 * </ul>
 */
package limnostat.measure;
