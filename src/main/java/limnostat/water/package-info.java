/**
 * Chemistry of pool water and its balance of heat. Each function names its range, equation and
 * source. Knows no other package. Pure.
 *
 * <ul>
 *   <li>{@link limnostat.water.Validity} is how a value outside the range is refused. What every
 *       scan calls ({@code Cyanurate.hypochlorousAcidMgL}) does not check it.
 *   <li><b>One set of cyanurate constants</b> (O'Brien and others), named in every output with ±35
 *       %. The newer set follows temperature and differs by about a third at 25 °C. The simulated
 *       pool uses that one, so that the two check each other.
 *   <li><b>The saturation index comes in two forms, kept apart</b>, the field form first, as the
 *       trade knows it. The factor form only holds the published examples.
 * </ul>
 */
package limnostat.water;
