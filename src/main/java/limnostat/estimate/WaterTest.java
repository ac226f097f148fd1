package limnostat.estimate;

import java.util.OptionalDouble;

/** A person's water test: any part of it may be missing. Units mg/L, but pH. */
public record WaterTest(
    OptionalDouble freeChlorineMgL,
    OptionalDouble combinedChlorineMgL,
    OptionalDouble ph,
    OptionalDouble totalAlkalinityMgL,
    OptionalDouble cyanuricAcidMgL,
    OptionalDouble calciumHardnessMgL,
    OptionalDouble saltMgL) {}
