package limnostat.control;

/**
 * The chlorine output, by its label: the believed gain is not in it.
 *
 * @param rateGH what it gives at full duty, g/h
 * @param hourCapG most in any 60 minutes, g
 * @param dayCapG most in any 24 hours, g
 */
public record Feed(double rateGH, double hourCapG, double dayCapG) {
  /** Most that it may give in an hour of pump, g. */
  public double hourG() {
    return Math.min(rateGH, hourCapG);
  }

  /**
   * Most that it may give in a day, g.
   *
   * @param pumpH hours of pump in it
   */
  public double dayG(double pumpH) {
    return Math.min(dayCapG, hourG() * pumpH);
  }
}
