package limnostat.estimate;

import java.util.Optional;
import java.util.OptionalDouble;

/**
 * A person's water test; any part may be missing. Units are mg/L, except pH.
 *
 * @param kit kit that free chlorine was read with; empty: the usual one
 * @param glance free chlorine as seen at a glance, instead of a value
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

  /** A test with the usual kit. */
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

  /** Whether it includes free chlorine, as a value or at a glance. */
  public boolean ofFreeChlorine() {
    return freeChlorineMgL.isPresent() || glance.isPresent();
  }

  /**
   * The test in the form that the filter uses: with the usual kit if none is stated, and a glance
   * as a value with its own error.
   *
   * @param known what is known about free chlorine without it
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
   * Combined chlorine as tested, else total minus free chlorine if both were tested, mg/L. That
   * difference is never below 0, where a kit's error might put it.
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
