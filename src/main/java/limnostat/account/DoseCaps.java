package limnostat.account;

/**
 * The rate of an output at full duty and the caps on what it may give. The unit of the amount is g
 * of chlorine (as Cl2) for the chlorine output and mL of acid as fed for the acid output.
 *
 * @param ratePerH amount an hour at full duty
 * @param hourCap most in any rolling 60 minutes
 * @param dayCap most in any rolling 24 hours
 * @param blockAmount how much is booked ahead in one ledger commit, if one scan cannot give more
 */
public record DoseCaps(double ratePerH, double hourCap, double dayCap, double blockAmount) {
  /** Longest time that an output may go on before the next scan, s; a longer one is a gap. */
  private static final double SCAN_MAX_S = 60;

  /** What can be given before the next scan. */
  public double perScan() {
    return ratePerH * SCAN_MAX_S / 3600;
  }

  /** A block holds a few scans' worth at the least, or a slow scan could never draw on it. */
  public double block() {
    return Math.max(blockAmount, 4 * perScan());
  }

  /** What an output gives in a time, s. */
  public double amount(double output, double elapsedS) {
    return ratePerH * output * elapsedS / 3600;
  }
}
