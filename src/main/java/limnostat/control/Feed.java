package limnostat.control;

/**
 * The chlorine output by its label, without the estimated gain.
 *
 * @param rateGH output at full duty, g/h
 * @param hourCapG most in any 60 minutes, g
 * @param dayCapG most in any 24 hours, g
 */
public record Feed(double rateGH, double hourCapG, double dayCapG) {
  /** Most that it may feed in an hour of pumping, g. */
  public double hourG() {
    return Math.min(rateGH, hourCapG);
  }

  /**
   * Most that it may feed in a day, g.
   *
   * @param pumpH hours of pumping in that day
   */
  public double dayG(double pumpH) {
    return Math.min(dayCapG, hourG() * pumpH);
  }
}
