/**
 * A simulated pool that is realistic enough to test a controller: weather, people, water, feeders,
 * probes and faults.
 *
 * <p>Each class models one phenomenon and has its own {@code Settings}; {@link
 * limnostat.plant.Pool} steps them in order. The plant shares no equation code with {@code water}
 * and {@code estimate}, and where two published sets exist it uses the other one. So a controller
 * that does well here has not merely been tested against its own model:
 *
 * <ul>
 *   <li>cyanurate by Wahman and Alexander instead of O'Brien, Morris and Butler;
 *   <li>sun by the short NOAA form and Kasten and Czeplak;
 *   <li>carbonate by Harned and co-workers instead of Plummer and Busenberg.
 * </ul>
 *
 * <p>Source marks: [checked] read, [memory] recalled, [practice] common practice, [judgement]
 * engineering judgement. Everything random has a seed: the same settings, start and calls give an
 * identical pool, bit for bit, on any machine (hence {@code StrictMath}).
 */
package limnostat.plant;
