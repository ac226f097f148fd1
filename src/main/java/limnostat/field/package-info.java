/**
 * Inputs and outputs by role. {@code SimulatedField} advances a simulated pool. {@code field.board}
 * is the wiring of a real one and is loaded only if the configuration selects it.
 *
 * <p>The heartbeat output is a level that changes with each complete scan, not a pulse. Whatever
 * hangs, and at whichever level, the changes stop.
 *
 * <p>Outputs and heartbeat are read back from the driver library's memory, not from the pin.
 */
package limnostat.field;
