/**
 * The field of a single-board computer: converters on I2C, a 1-wire thermometer, contacts, a pulse
 * meter and relays. Only this package uses Pi4J, so a simulated field does not load it.
 *
 * <pre>
 * contacts, pulses ── InputLine ───────────────┐
 * I2C converters ──── Ads1115 ──── Sampler ────┼── BoardField.read    (scan thread)
 * 1-wire ──────────── Thermometer ─ Sampler ───┘
 * relays ──────────── RelayLine ────────────────── BoardField.write   (scan thread; off: any)
 * </pre>
 *
 * <p>A bus can hang, and a 1-wire reading takes most of a second, so each bus has its own thread,
 * which publishes the newest readings. The scan takes what is available and never waits.
 */
package limnostat.field.board;
