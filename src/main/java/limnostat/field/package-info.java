/**
 * Inputs and outputs by role. {@code SimulatedField} moves a simulated pool; {@code field.board} is
 * the wiring of a real one, and is loaded only when a configuration asks for it.
 *
 * <p>The heartbeat output is a level that changes with each whole scan, not a pulse. Whatever
 * hangs, and on whatever level, the changes cease.
 *
 * <p>Outputs and heartbeat are read back from the driver library's memory, not at the pin.
 */
package limnostat.field;
