package limnostat.safety;

import java.util.Map;
import limnostat.actuate.Output;
import limnostat.estimate.Estimate;
import limnostat.measure.Measurements;

/**
 * All that the causes are detected from on one scan.
 *
 * @param interrupted whether this is the first scan, or the first after a gap
 * @param off whether the mode is off
 * @param pumpWanted whether circulation is wanted now
 * @param pumpRests whether the circulation pump is known to rest
 * @param superchlorinating whether a superchlorination runs
 * @param last what each output has done since the last scan, 0–1
 * @param account what the account says of each fitted output
 * @param outputsDriven whether the last write to the outputs succeeded
 * @param ledgerFailing whether the ledger cannot be written
 * @param overran whether the scan before came late or took too long
 * @param clockTrusted whether the wall clock is believed
 * @param stabiliser what the account says of it
 * @param judged what the law and a person's tests say of pool and output
 * @param plant what is fed and done
 */
public record Observed(
    Measurements measured,
    Estimate estimate,
    boolean interrupted,
    boolean off,
    boolean pumpWanted,
    boolean pumpRests,
    boolean superchlorinating,
    Map<Output, Double> last,
    Map<Output, Dose> account,
    boolean outputsDriven,
    boolean ledgerFailing,
    boolean overran,
    boolean clockTrusted,
    Stabiliser stabiliser,
    Judged judged,
    Plant plant) {

  /**
   * One output's account.
   *
   * @param hourReached whether another scan's dose would pass the cap of 60 minutes
   * @param dayReached the same of 24 hours
   * @param booked whether another scan's dose is in the ledger
   */
  public record Dose(boolean hourReached, boolean dayReached, boolean booked) {}

  /**
   * Stabiliser, and the target beside it.
   *
   * @param mgL stabiliser by the account, mg/L
   * @param leastFreeChlorineMgL least free chlorine that does its work beside so much, mg/L
   * @param targetMgL target of free chlorine, mg/L
   */
  public record Stabiliser(double mgL, double leastFreeChlorineMgL, double targetMgL) {}

  /**
   * What a person should know of.
   *
   * @param longUnsure whether free chlorine has hardly been known for a day
   * @param longGone whether the chlorine of the water may have been gone for a day
   * @param longStarved whether ORP alone has kept the feed low for a day
   * @param testedMgL free chlorine of the last test, mg/L; infinite: there was none
   * @param outputTooSmall whether the output has long been too small for the pool
   * @param combinedChlorineMgL as last tested, mg/L; 0: none, or never tested
   * @param doubtedMgL free chlorine of a fresh test that is not believed yet, mg/L; 0: there is
   *     none
   */
  public record Judged(
      boolean longUnsure,
      boolean longGone,
      boolean longStarved,
      double testedMgL,
      boolean outputTooSmall,
      double combinedChlorineMgL,
      double doubtedMgL) {}

  /**
   * What is fed and done.
   *
   * @param fedMgL chlorine that went in since the last scan, by the label, mg/L
   * @param unprovenMgL what the ledger had booked for a process that is gone, beyond what is known
   *     to have gone in, mg/L
   * @param acidFallPh by how much pH should fall by the acid that went in since then
   * @param tested whether a person's test has just moved the ORP setpoint
   * @param freeChlorineTested whether a person has just tested free chlorine
   * @param phAgreed whether a person's test of pH has just agreed with the electrode
   * @param coverClosed whether the cover is closed, or was when it was last read
   * @param functionCheck whether a person has taken the plant for a function check
   * @param configurationChanged whether the configuration was changed of late
   * @param testAgeS time since the last believed test of free chlorine, s
   * @param runs of each fitted output
   */
  public record Plant(
      double fedMgL,
      double unprovenMgL,
      double acidFallPh,
      boolean tested,
      boolean freeChlorineTested,
      boolean phAgreed,
      boolean coverClosed,
      boolean functionCheck,
      boolean configurationChanged,
      double testAgeS,
      Map<Output, Run> runs) {}

  /**
   * One output's on time.
   *
   * @param over whether it has been on for its longest run without a pause
   * @param rested whether it has been off for its rest
   */
  public record Run(boolean over, boolean rested) {}
}
