/**
 * A simulated pool that is worth controlling: weather, people, water, feeders, probes and faults.
 *
 * <p>One phenomenon a class, each with its own {@code Settings}; {@link limnostat.plant.Pool} steps
 * them in order. The plant shares no equation code with {@code water} and {@code estimate}, and
 * where two published sets exist it takes the other one, so that a controller that does well here
 * has not merely met its own model:
 *
 * <ul>
 *   <li>cyanurate by Wahman and Alexander instead of O'Brien, Morris and Butler;
 *   <li>sun by the short NOAA form and Kasten and Czeplak;
 *   <li>carbonate by Harned and co-workers instead of Plummer and Busenberg.
 * </ul>
 *
 * <p>Source marks as usual: [checked] read, [memory] recalled, [practice] common practice,
 * [judgement] engineering judgement. Everything random has its seed: the same settings, start and
 * calls give the same pool bit for bit, on any machine (hence {@code StrictMath}).
 */
package limnostat.plant;
