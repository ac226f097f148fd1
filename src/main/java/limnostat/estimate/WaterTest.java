package limnostat.estimate;

import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * A person's water test; any part may be missing.
 *
 * @param values what was tested, mg/L and pH
 * @param kit kit that free chlorine was read with; empty: the usual one
 * @param glance free chlorine as seen at a glance, instead of a value
 */
public record WaterTest(
    Map<Tested, Double> values, Optional<TestKit> kit, Optional<Glance> glance) {

  public WaterTest {
    values = Map.copyOf(values);
  }

  /** A test of nothing yet, with the usual kit. */
  public static final WaterTest EMPTY = new WaterTest(Map.of(), Optional.empty(), Optional.empty());

  /** The same with this value, mg/L or pH. */
  public WaterTest with(Tested quantity, double value) {
    return with(quantity, OptionalDouble.of(value));
  }

  /** The same with this value, or without any. */
  public WaterTest with(Tested quantity, OptionalDouble value) {
    Map<Tested, Double> next = new EnumMap<>(Tested.class);
    next.putAll(values);
    next.remove(quantity);
    value.ifPresent(read -> next.put(quantity, read));
    return new WaterTest(next, kit, glance);
  }

  public WaterTest readWith(TestKit with) {
    return new WaterTest(values, Optional.of(with), glance);
  }

  public WaterTest seen(Glance seen) {
    return new WaterTest(values, kit, Optional.of(seen));
  }

  public OptionalDouble of(Tested quantity) {
    Double value = values.get(quantity);
    return value == null ? OptionalDouble.empty() : OptionalDouble.of(value);
  }

  public OptionalDouble freeChlorineMgL() {
    return of(Tested.FREE_CHLORINE);
  }

  public OptionalDouble combinedChlorineMgL() {
    return of(Tested.COMBINED_CHLORINE);
  }

  public OptionalDouble totalChlorineMgL() {
    return of(Tested.TOTAL_CHLORINE);
  }

  public OptionalDouble ph() {
    return of(Tested.PH);
  }

  public OptionalDouble totalAlkalinityMgL() {
    return of(Tested.TOTAL_ALKALINITY);
  }

  public OptionalDouble cyanuricAcidMgL() {
    return of(Tested.CYANURIC_ACID);
  }

  public OptionalDouble calciumHardnessMgL() {
    return of(Tested.CALCIUM_HARDNESS);
  }

  public OptionalDouble saltMgL() {
    return of(Tested.SALT);
  }

  /** Whether it includes free chlorine, as a value or at a glance. */
  public boolean ofFreeChlorine() {
    return freeChlorineMgL().isPresent() || glance.isPresent();
  }

  /**
   * The test in the form that the filter uses: with the usual kit if none is stated, and a glance
   * as a value with its own error.
   *
   * @param known what is known about free chlorine without it
   */
  public WaterTest by(TestKit usual, BelievedNow known) {
    if (glance.isEmpty()) {
      return readWith(kit.map(other -> other.beside(usual)).orElse(usual));
    }
    Glance.Reading seen = glance.get().beside(known);
    return with(Tested.FREE_CHLORINE, seen.mgL())
        .readWith(new TestKit(glance.get().key(), 0, 0, seen.sdMgL(), 0, usual.biasSdShare()));
  }

  /**
   * Combined chlorine as tested, else total minus free chlorine if both were tested, mg/L. That
   * difference is never below 0, where a kit's error might put it.
   */
  public OptionalDouble combinedMgL() {
    if (combinedChlorineMgL().isPresent()
        || totalChlorineMgL().isEmpty()
        || freeChlorineMgL().isEmpty()) {
      return combinedChlorineMgL();
    }
    return OptionalDouble.of(
        Math.max(0, totalChlorineMgL().getAsDouble() - freeChlorineMgL().getAsDouble()));
  }
}
