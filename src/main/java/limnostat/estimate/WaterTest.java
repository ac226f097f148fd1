package limnostat.estimate;

import java.util.Optional;
import java.util.OptionalDouble;

/**
 * A person's water test: any part of it may be missing. Units mg/L, but pH.
 *
 * @param kit what free chlorine was read with; empty: the usual one
 * @param glance free chlorine as it was seen at a glance, instead of a value
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
    Optional<TestKit> kit,
    Optional<Glance> glance) {

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
        Optional.empty(),
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

  /** Whether it tells of free chlorine, as a value or at a glance. */
  public boolean ofFreeChlorine() {
    return freeChlorineMgL.isPresent() || glance.isPresent();
  }

  /**
   * The same as the filter takes it: read with the usual kit where it does not say with which, and
   * what was seen at a glance as a value with its own error.
   *
   * @param known what is known of free chlorine without it
   */
  public WaterTest by(TestKit usual, BelievedNow known) {
    if (glance.isEmpty()) {
      return read(freeChlorineMgL, kit.map(other -> other.beside(usual)).orElse(usual));
    }
    Glance.Reading seen = glance.get().beside(known);
    return read(
        OptionalDouble.of(seen.mgL()),
        new TestKit(glance.get().key(), 0, 0, seen.sdMgL(), 0, usual.biasSdShare()));
  }

  private WaterTest read(OptionalDouble mgL, TestKit with) {
    return new WaterTest(
        mgL,
        combinedChlorineMgL,
        ph,
        totalAlkalinityMgL,
        cyanuricAcidMgL,
        calciumHardnessMgL,
        saltMgL,
        totalChlorineMgL,
        Optional.of(with),
        glance);
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
