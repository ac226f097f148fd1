package limnostat.season;

import java.util.OptionalDouble;

/**
 * What an owner reads from the kit and enters.
 *
 * @param freeChlorineMgL mg/L
 * @param ph pH
 * @param cyanuricAcidMgL stabiliser, mg/L, if it was tested
 */
record KitTest(double freeChlorineMgL, double ph, OptionalDouble cyanuricAcidMgL) {}
