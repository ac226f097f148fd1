/**
 * Advice on what to add and in which order, from a person's water test. Pure.
 *
 * <p>It advises one product at a time. {@code Addition.hoursFrom} is never 0, waits are calculated
 * between all pairs of steps, and a dilution ends the plan, since no earlier test is valid after
 * it.
 */
package limnostat.water.advice;
