package limnostat.estimate;

import java.util.Optional;
import java.util.OptionalDouble;

/**
 * A person's water test: any part of it may be missing. Units mg/L, but pH.
 *
 * @param kit what free chlorine was read with; empty: the usual one
 */
public record WaterTest(
    OptionalDouble freeChlorineMgL,
    OptionalDouble combinedChlorineMgL,
    OptionalDouble ph,
    OptionalDouble totalAlkalinityMgL,
    OptionalDouble cyanuricAcidMgL,
    OptionalDouble calciumHardnessMgL,
    OptionalDouble saltMgL,
    OptionalDouble totalChlorineMgL,
    Optional<TestKit> kit) {

  /** A test by the usual kit. */
  public WaterTest(
      OptionalDouble freeChlorineMgL,
      OptionalDouble combinedChlorineMgL,
      OptionalDouble ph,
      OptionalDouble totalAlkalinityMgL,
      OptionalDouble cyanuricAcidMgL,
      OptionalDouble calciumHardnessMgL,
      OptionalDouble saltMgL,
      OptionalDouble totalChlorineMgL) {
    this(
        freeChlorineMgL,
        combinedChlorineMgL,
        ph,
        totalAlkalinityMgL,
        cyanuricAcidMgL,
        calciumHardnessMgL,
        saltMgL,
        totalChlorineMgL,
        Optional.empty());
  }

  /** A test without total chlorine. */
  public WaterTest(
      OptionalDouble freeChlorineMgL,
      OptionalDouble combinedChlorineMgL,
      OptionalDouble ph,
      OptionalDouble totalAlkalinityMgL,
      OptionalDouble cyanuricAcidMgL,
      OptionalDouble calciumHardnessMgL,
      OptionalDouble saltMgL) {
    this(
        freeChlorineMgL,
        combinedChlorineMgL,
        ph,
        totalAlkalinityMgL,
        cyanuricAcidMgL,
        calciumHardnessMgL,
        saltMgL,
        OptionalDouble.empty());
  }

  /** The same, read with the usual kit where it does not say with which. */
  public WaterTest by(TestKit usual) {
    return new WaterTest(
        freeChlorineMgL,
        combinedChlorineMgL,
        ph,
        totalAlkalinityMgL,
        cyanuricAcidMgL,
        calciumHardnessMgL,
        saltMgL,
        totalChlorineMgL,
        Optional.of(kit.map(other -> other.beside(usual)).orElse(usual)));
  }

  /**
   * Combined chlorine as it was tested, else total less free chlorine where both were, mg/L; never
   * below 0, where a kit's error may put it.
   */
  public OptionalDouble combinedMgL() {
    if (combinedChlorineMgL.isPresent()
        || totalChlorineMgL.isEmpty()
        || freeChlorineMgL.isEmpty()) {
      return combinedChlorineMgL;
    }
    return OptionalDouble.of(
        Math.max(0, totalChlorineMgL.getAsDouble() - freeChlorineMgL.getAsDouble()));
  }
}
