/**
 * Chemistry and heat balance of pool water. Each function names its range, equation and source.
 * Depends on no other package. Pure.
 *
 * <ul>
 *   <li>{@link limnostat.water.Validity} rejects a value outside the range. {@code
 *       Cyanurate.hypochlorousAcidMgL}, which every scan calls, does not check its arguments.
 *   <li><b>One set of cyanurate constants</b> (O'Brien and others), named in every output with ±35
 *       %. The newer set depends on temperature and differs by about a third at 25 °C. The
 *       simulated pool uses the newer set, so that the two check each other.
 *   <li><b>The saturation index comes in two forms, kept apart</b>. The field form comes first, as
 *       the trade knows it. The factor form only serves to check the published examples.
 * </ul>
 */
package limnostat.water;
