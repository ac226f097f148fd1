package limnostat.season;

import java.util.OptionalDouble;

/**
 * What an owner reads off the kit and passes on.
 *
 * @param freeChlorineMgL mg/L
 * @param ph pH
 * @param cyanuricAcidMgL stabiliser, mg/L, where it was tested
 */
record KitTest(double freeChlorineMgL, double ph, OptionalDouble cyanuricAcidMgL) {}
