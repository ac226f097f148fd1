package limnostat.account;

/**
 * The rate of an output at full duty and the caps on what it may give. The unit of amounts is g of
 * chlorine (as Cl2) for the chlorine output and mL of acid as fed for the acid output.
 *
 * @param ratePerH amount per hour at full duty
 * @param hourCap most in any rolling 60 minutes
 * @param dayCap most in any rolling 24 hours
 * @param blockAmount amount booked ahead in one ledger commit; {@link #block} raises it if a few
 *     scans can give more
 */
public record DoseCaps(double ratePerH, double hourCap, double dayCap, double blockAmount) {
  /** Longest time that an output may stay on before the next scan, s; a longer one is a gap. */
  private static final double SCAN_MAX_S = 60;

  /** What can be given before the next scan. */
  public double perScan() {
    return ratePerH * SCAN_MAX_S / 3600;
  }

  /** A block holds at least a few scans' worth; otherwise a slow scan could never draw on it. */
  public double block() {
    return Math.max(blockAmount, 4 * perScan());
  }

  /** What an output gives in the elapsed time. */
  public double amount(double output, double elapsedS) {
    return ratePerH * output * elapsedS / 3600;
  }
}
