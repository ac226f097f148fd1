package limnostat.water.advice;

import java.util.List;

/**
 * One thing to do.
 *
 * @param product with its strength
 * @param amount in the measure's unit
 * @param purpose what it is to reach, for people
 * @param effects what comes with it, for people
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
  /** What an amount is counted in. */
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
