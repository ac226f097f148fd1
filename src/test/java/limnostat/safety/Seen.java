package limnostat.safety;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import limnostat.actuate.Output;
import limnostat.estimate.Consistency;
import limnostat.estimate.Estimate;
import limnostat.estimate.Estimates;
import limnostat.estimate.Outlook;
import limnostat.estimate.TestDue;
import limnostat.measure.Measurement;
import limnostat.measure.Measurements;
import limnostat.measure.Outside;
import limnostat.measure.Plausibility;
import limnostat.measure.Status;
import limnostat.measure.Upkeep;

/** What the causes are detected from, for tests: all is well until a field is changed. */
final class Seen {
  static final SafetyLimits LIMITS = new SafetyLimits(800, 5, 10, 6.8, 8.0, 10, 40, 60, 300, 5);

  Measurement orpMv = value(700);
  Measurement ph = value(7.4);
  Measurement waterC = value(25);
  boolean flow = true;
  double flowS = 600;
  boolean poolWater = true;
  Optional<Boolean> pumpOn = Optional.empty();
  OptionalDouble cellA = OptionalDouble.empty();
  boolean tankLow;
  boolean acidTankLow;
  double freeChlorineMgL = 3;
  double freeChlorineSdMgL = 0.3;

  /** By doses and tests alone; NaN: the same. */
  double balanceMgL = Double.NaN;

  boolean interrupted;
  boolean off;
  boolean pumpWanted = true;
  boolean pumpRests;
  Optional<String> flowMissing = Optional.empty();
  Upkeep upkeep = Upkeep.NONE;
  boolean superchlorinating;
  double chlorine;
  double acid;
  Observed.Dose chlorineDose = new Observed.Dose(false, false, true);
  Optional<Observed.Dose> acidDose = Optional.of(new Observed.Dose(false, false, true));
  boolean outputsDriven = true;
  boolean ledgerFailing;
  boolean overran;
  boolean clockTrusted = true;
  Observed.Stabiliser stabiliser = new Observed.Stabiliser(30, 1.5, 3);
  TestDue testDue = TestDue.NONE;
  boolean lost;
  boolean longUnsure;
  boolean longGone;
  boolean longStarved;
  double testedMgL = Double.POSITIVE_INFINITY;
  boolean outputTooSmall;
  double combinedChlorineMgL;
  double doubtedMgL;
  double fedMgL;
  double unprovenMgL;

  /** Tests in a row, of late, that found chlorine used up. */
  int usedUpTests;

  double acidFallPh;
  boolean phAgreed;
  boolean tested;
  boolean freeChlorineTested;
  boolean coverClosed;
  boolean functionCheck;
  boolean configurationChanged;
  double testAgeS;
  Observed.Run chlorineRun = new Observed.Run(false, true);
  Observed.Run acidRun = new Observed.Run(false, true);

  static Measurement value(double value) {
    return new Measurement.Value(value, Status.GOOD, 0, List.of());
  }

  static Measurement held(double value) {
    return new Measurement.Value(
        value, Status.OUT_OF_SPECIFICATION, 10, List.of(Plausibility.PRESENT));
  }

  static Measurement failed() {
    return new Measurement.None(
        Status.FAILURE, List.of(Plausibility.PRESENT), OptionalDouble.empty());
  }

  static Measurement standing() {
    return new Measurement.None(
        Status.FUNCTION_CHECK, List.of(Plausibility.FRESH_WATER), OptionalDouble.of(1));
  }

  private Estimate estimate() {
    double balance = Double.isNaN(balanceMgL) ? freeChlorineMgL : balanceMgL;
    Estimate sound =
        Estimates.of(outlook(freeChlorineMgL), outlook(balance), freeChlorineSdMgL, 2, 700);
    return Estimates.withUsedUp(
        Estimates.with(sound, new Consistency(0, 1, 1, lost), testDue), usedUpTests);
  }

  private static Outlook outlook(double mgL) {
    return new Outlook(mgL, 0.2, 0.5, 0, 0.3, 0, 1);
  }

  Observed observed() {
    Map<Output, Observed.Dose> doses = new EnumMap<>(Output.class);
    doses.put(Output.CHLORINE, chlorineDose);
    acidDose.ifPresent(dose -> doses.put(Output.ACID, dose));
    return new Observed(
        new Measurements(
            orpMv,
            ph,
            waterC,
            flow,
            flowMissing,
            flow ? flowS : -1,
            poolWater,
            pumpOn,
            cellA,
            tankLow,
            acidTankLow,
            Outside.UNKNOWN,
            25,
            upkeep),
        estimate(),
        interrupted,
        off,
        pumpWanted,
        pumpRests,
        superchlorinating,
        Map.of(Output.CHLORINE, chlorine, Output.ACID, acid),
        doses,
        outputsDriven,
        ledgerFailing,
        overran,
        clockTrusted,
        stabiliser,
        new Observed.Judged(
            longUnsure,
            longGone,
            longStarved,
            testedMgL,
            outputTooSmall,
            combinedChlorineMgL,
            doubtedMgL),
        new Observed.Plant(
            fedMgL,
            unprovenMgL,
            acidFallPh,
            tested,
            freeChlorineTested,
            phAgreed,
            coverClosed,
            functionCheck,
            configurationChanged,
            testAgeS,
            Map.of(Output.CHLORINE, chlorineRun, Output.ACID, acidRun)));
  }
}
