package limnostat.plant;

/**
 * The true state of the pool, for tests and plots; no controller sees it.
 *
 * @param unixTimeS time, Unix s
 * @param freeChlorineMgL free chlorine in the pool outside the inlet zone, mg/L
 * @param meanFreeChlorineMgL mean free chlorine over all water, pipes included, mg/L
 * @param combinedChlorineMgL combined chlorine, mg/L
 * @param hoclMgL hypochlorous acid, mg/L as Cl2
 * @param ph pH
 * @param waterC water temperature, °C
 * @param cyanuricAcidMgL stabiliser, mg/L
 * @param totalAlkalinityMgL total alkalinity as a test finds it, mg/L as CaCO3
 * @param saltMgL salt, mg/L
 * @param solarWM2 global radiation, W/m²
 * @param cloudOctas cloud cover, 0–8
 * @param airC air temperature, °C
 * @param rainMmH rain, mm/h
 * @param bathers people in the water
 * @param flowLMin flow past the probes, L/min
 * @param chlorineGivenG chlorine given since the start, g
 * @param chlorineLostG free chlorine lost since the start, g
 * @param acidGivenMl acid given since the start, mL
 * @param demandMgLDay present loss as a mean over the whole pool, mg/L per day
 */
public record Truth(
    double unixTimeS,
    double freeChlorineMgL,
    double meanFreeChlorineMgL,
    double combinedChlorineMgL,
    double hoclMgL,
    double ph,
    double waterC,
    double cyanuricAcidMgL,
    double totalAlkalinityMgL,
    double saltMgL,
    double solarWM2,
    double cloudOctas,
    double airC,
    double rainMmH,
    int bathers,
    double flowLMin,
    double chlorineGivenG,
    double chlorineLostG,
    double acidGivenMl,
    double demandMgLDay) {}
