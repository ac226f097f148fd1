/**
 * The field of a single-board computer: converters on I2C, a 1-wire thermometer, contacts, a pulse
 * meter and relays. The only package that uses Pi4J, so that a simulated field loads none of it.
 *
 * <pre>
 * contacts, pulses ── InputLine ───────────────┐
 * I2C converters ──── Ads1115 ──── Sampler ────┼── BoardField.read    (scan thread)
 * 1-wire ──────────── Thermometer ─ Sampler ───┘
 * relays ──────────── RelayLine ────────────────── BoardField.write   (scan thread; off: any)
 * </pre>
 *
 * <p>A bus can hang, and a 1-wire reading takes most of a second, so each bus has a thread of its
 * own that publishes its newest readings; the scan takes what is there and never waits.
 */
package limnostat.field.board;
