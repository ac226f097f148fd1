package limnostat.estimate;

/**
 * Something that a person added to the pool, or drained from it.
 *
 * @param number running number of all additions ever entered, from 1
 * @param product what it was
 * @param amount amount, in the product's own unit: g, mL or L
 * @param percent strength, %; 0: not applicable
 * @param ageS time since it went in, s
 * @param enteredAgeS time since it was entered, s
 * @param volumeM3 water volume of the pool when it was entered, m³
 * @param broughtShare share that has dissolved and is counted, 0–1
 * @param replacedShare share of the pool's water that it replaced, 0–1; 0 except for water
 * @param leftMgL calculated rest of the free chlorine that it added, mg/L; below 0 if it removed
 *     some
 * @param moves how far it may move the values at the probes
 * @param undone whether it was undone
 */
public record Addition(
    long number,
    Product product,
    double amount,
    double percent,
    double ageS,
    double enteredAgeS,
    double volumeM3,
    double broughtShare,
    double replacedShare,
    double leftMgL,
    HandMoves moves,
    boolean undone) {

  /** Data read back from a ledger is checked like untrusted input. */
  public Addition {
    if (number < 1
        || !(amount > 0 && amount < Double.POSITIVE_INFINITY)
        || !(percent >= 0 && percent <= 100)
        || !(volumeM3 > 0)
        || !(ageS >= 0)
        || !(enteredAgeS >= 0)
        || !(broughtShare >= 0 && broughtShare <= 1)
        || !(replacedShare >= 0 && replacedShare <= 1)
        || !Double.isFinite(leftMgL)) {
      throw new IllegalArgumentException(
          "no addition: " + number + ", " + amount + " of " + percent + " %, " + ageS + " s ago");
    }
  }

  /** An id short enough to type. */
  public String id() {
    return "a" + number;
  }

  /** Everything that it changes once it has dissolved, mg/L. */
  public WaterChange change() {
    return product.change(amount / volumeM3, percent);
  }

  /** Chlorine in it, g as Cl2. */
  double chlorineG() {
    return product.chlorineG(amount, percent);
  }

  /** Whether all of it has dissolved. */
  boolean done() {
    return broughtShare >= 1 || undone;
  }

  /** Share that has dissolved after this time, 0–1. */
  static double dissolvedShare(Product product, double ageS) {
    return product.lastsS() > 0 ? Math.min(1, ageS / product.lastsS()) : 1;
  }

  Addition aged(double elapsedS, double nextBroughtShare, double nextLeftMgL) {
    return new Addition(
        number,
        product,
        amount,
        percent,
        ageS + elapsedS,
        enteredAgeS + elapsedS,
        volumeM3,
        nextBroughtShare,
        replacedShare,
        nextLeftMgL,
        moves,
        undone);
  }

  Addition takenBack() {
    return new Addition(
        number,
        product,
        amount,
        percent,
        ageS,
        enteredAgeS,
        volumeM3,
        broughtShare,
        replacedShare,
        0,
        moves,
        true);
  }
}
