/**
 * From a person's water test to what to add, in which order. Pure.
 *
 * <p>It advises one product at a time. {@code Addition.hoursFrom} is never 0, waits are worked out
 * between all pairs of steps, and a dilution ends the plan, since nothing that was tested before
 * holds after it.
 */
package limnostat.water.advice;
