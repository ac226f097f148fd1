package limnostat.account;

/**
 * The rate of an output at full duty and the caps on what it may give. The unit of the amount is g
 * of chlorine (as Cl2) for the chlorine output and mL of acid as fed for the acid output.
 *
 * @param ratePerH amount an hour at full duty
 * @param hourCap most in any rolling 60 minutes
 * @param dayCap most in any rolling 24 hours
 * @param blockAmount how much is booked ahead in one ledger commit
 */
public record DoseCaps(double ratePerH, double hourCap, double dayCap, double blockAmount) {}
