/**
 * From raw signals to values with their NE 107 status: calibration, compensation, named tests, and
 * whether a value moves as water can. Pure.
 *
 * <ul>
 *   <li><b>Bad time of a probe adds up, and good time takes it back at a quarter of the speed</b>
 *       ({@link limnostat.measure.Probe}). If each good sample began the count anew, a probe that
 *       is good for one scan a minute would never have failed. An interruption, or a rest of the
 *       pump, forgets values, not faults.
 *   <li><b>A fault is kept as it was when the probe failed</b> ({@link limnostat.measure.Fault}),
 *       so that an alarm's words stand still and are published once.
 *   <li><b>Whether pH is frozen is judged by the electrode's own signal.</b> Temperature
 *       compensation alone moves a dead electrode out of its band whenever the water warms by 0.4
 *       °C in an hour. The band is at least one and a half steps of the board's converter.
 *   <li><b>Temperature and pH are held against bounds, not against a prediction</b> ({@link
 *       limnostat.measure.Envelope}): a set-membership observer. Its bounds move apart with time,
 *       and what is believed draws them in. What is not known of a pool (depth, heater, wind,
 *       aeration) is taken at its worst. So nothing has to be configured and no healthy pool is
 *       doubted; the price is that slow drifts pass. A prediction would have to learn each of them,
 *       and a false alarm of a thermometer limits the output. A doubted value is tracked by bounds
 *       of its own, so that growing bounds never make a wrong value right by themselves.
 *   <li><b>A doubted temperature stays a value</b> (out of specification, not fresh), so that
 *       {@code water_hot} and {@code water_cold} still go by it: a doubt takes no inhibit away. All
 *       else gets the configured temperature ({@link limnostat.measure.Upkeep}), also while the
 *       pump rests.
 *   <li><b>pH that moved up stays doubted until a test</b>; moved down, a day is enough. Acid or
 *       soda ash that a person pours in looks like a failing electrode, and a test tells them
 *       apart. Without an acid output nothing is fed by pH, dosing by hand is the rule, and pH is
 *       not looked at.
 * </ul>
 */
package limnostat.measure;
