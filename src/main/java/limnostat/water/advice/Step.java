package limnostat.water.advice;

import java.util.List;

/**
 * One thing to do.
 *
 * @param product the product with its strength
 * @param amount amount in the measure's unit
 * @param purpose its goal, for people
 * @param effects its side effects, for people
 * @param waitH hours until the next step, after a test
 */
public record Step(
    Addition addition,
    String product,
    double amount,
    Measure measure,
    String purpose,
    List<String> effects,
    double waitH) {
  /** Unit of an amount. */
  public enum Measure {
    G,
    ML,
    H,
    M3
  }

  Step waiting(double hours) {
    return new Step(addition, product, amount, measure, purpose, effects, hours);
  }
}
