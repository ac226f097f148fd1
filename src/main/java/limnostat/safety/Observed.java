package limnostat.safety;

import java.util.Map;
import limnostat.actuate.Output;
import limnostat.estimate.Estimate;
import limnostat.measure.Measurements;

/**
 * The inputs from which the causes are detected on one scan.
 *
 * @param interrupted whether this is the first scan, or the first after a gap
 * @param off whether the mode is off
 * @param pumpWanted whether circulation is wanted now
 * @param pumpRests whether the circulation pump is known to be off
 * @param superchlorinating whether a superchlorination is running
 * @param last what each output did since the last scan, 0–1
 * @param account the dose account's status of each fitted output
 * @param outputsDriven whether the last write to the outputs succeeded
 * @param ledgerFailing whether the ledger cannot be written
 * @param overran whether the previous scan started late or took too long
 * @param clockTrusted whether the wall clock is trusted
 * @param stabiliser stabiliser by the account, and the target
 * @param judged what the control law and manual tests show about the pool and the output
 * @param plant what was fed, what people did and how the plant is
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
   * @param hourReached whether another scan's dose would exceed the 60-minute cap
   * @param dayReached the same for the 24-hour cap
   * @param booked whether another scan's dose is booked in the ledger
   */
  public record Dose(boolean hourReached, boolean dayReached, boolean booked) {}

  /**
   * Stabiliser, and the free-chlorine target that has to suit it.
   *
   * @param mgL stabiliser by the account, mg/L
   * @param leastFreeChlorineMgL minimum free chlorine that is effective at this stabiliser, mg/L
   * @param targetMgL target of free chlorine, mg/L
   */
  public record Stabiliser(double mgL, double leastFreeChlorineMgL, double targetMgL) {}

  /**
   * What people should know about.
   *
   * @param longUnsure whether free chlorine has been highly uncertain for a day
   * @param longGone whether the water may have been without chlorine for a day
   * @param longStarved whether ORP alone has kept the feed low for a day
   * @param testedMgL free chlorine of the last test, mg/L; infinite: no test yet
   * @param outputTooSmall whether the output has long been too small for the pool
   * @param combinedChlorineMgL as last tested, mg/L; 0: none, or never tested
   * @param doubtedMgL free chlorine of a fresh test that is not believed yet, mg/L; 0: none
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
   * What was fed, what people did and how the plant is.
   *
   * @param fedMgL chlorine fed since the last scan, by the label, mg/L
   * @param unprovenMgL what the ledger had booked for a process that has ended, beyond what is
   *     known to have been fed, mg/L
   * @param acidFallPh expected fall of pH from the acid fed since the last scan
   * @param tested whether a manual test has just moved the ORP setpoint
   * @param freeChlorineTested whether a person has just tested free chlorine
   * @param phAgreed whether a manual pH test has just agreed with the electrode
   * @param coverClosed whether the cover is closed, or was when it was last read
   * @param functionCheck whether a function check is running
   * @param configurationChanged whether the configuration was changed recently
   * @param testAgeS time since the last believed test of free chlorine, s
   * @param runs on time of each output
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
   * @param rested whether it has been off for its rest time
   */
  public record Run(boolean over, boolean rested) {}
}
