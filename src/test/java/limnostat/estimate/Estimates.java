package limnostat.estimate;

import java.util.List;

/**
 * Estimates for tests: free chlorine as a lognormal of its deviation, ORP and doses of one mind.
 */
public final class Estimates {
  /** The normal distribution's quantiles of {@link Residual#PROBABILITIES} (tables). */
  private static final List<Double> QUANTILES =
      List.of(-1.6449, -0.8416, -0.3853, 0.0, 0.3853, 0.8416, 1.6449);

  private Estimates() {}

  /**
   * @param demandMgLDay what the pool will use in a day at the target, mg/L a day
   * @param orpSetpointMv ORP at the target, mV
   * @param outlook free chlorine and how it will go
   */
  public static Estimate of(
      Outlook outlook, double freeChlorineSdMgL, double demandMgLDay, double orpSetpointMv) {
    return of(outlook, outlook, freeChlorineSdMgL, demandMgLDay, orpSetpointMv);
  }

  /** The same where doses and tests alone say something else. */
  public static Estimate of(
      Outlook outlook,
      Outlook balance,
      double freeChlorineSdMgL,
      double demandMgLDay,
      double orpSetpointMv) {
    double sdShare = freeChlorineSdMgL / outlook.freeChlorineMgL();
    return new Estimate(
        outlook.freeChlorineMgL(),
        freeChlorineSdMgL,
        demandMgLDay,
        0.2 * demandMgLDay,
        orpSetpointMv,
        0,
        Consistency.START,
        outlook,
        balance,
        residual(outlook.freeChlorineMgL(), balance.freeChlorineMgL(), sdShare),
        0,
        TestDue.NONE);
  }

  /** As of two lognormals with the same deviation. */
  public static Residual residual(double freeChlorineMgL, double balanceMgL, double sdShare) {
    return new Residual(
        sdShare,
        below(Residual.MINIMUM_MG_L, freeChlorineMgL, sdShare),
        below(Residual.MINIMUM_MG_L, balanceMgL, sdShare),
        balanceMgL * Math.exp(QUANTILES.get(QUANTILES.size() - 1) * sdShare),
        QUANTILES.stream().map(z -> Math.exp(z * sdShare)).toList());
  }

  private static double below(double mgL, double aboutMgL, double sdShare) {
    return Gaussian.normal(Math.log(mgL / aboutMgL) / sdShare);
  }

  /** The same with other words of test and electrode. */
  public static Estimate with(Estimate e, Consistency consistency, TestDue due) {
    return new Estimate(
        e.freeChlorineMgL(),
        e.freeChlorineSdMgL(),
        e.demandMgLDay(),
        e.demandSdMgLDay(),
        e.orpSetpointMv(),
        e.electrodeOffsetMv(),
        consistency,
        e.outlook(),
        e.balance(),
        e.residual(),
        e.usedUp(),
        due);
  }

  /** The same with another deviation of the demand, mg/L a day. */
  public static Estimate withDemandSd(Estimate e, double demandSdMgLDay) {
    return new Estimate(
        e.freeChlorineMgL(),
        e.freeChlorineSdMgL(),
        e.demandMgLDay(),
        demandSdMgLDay,
        e.orpSetpointMv(),
        e.electrodeOffsetMv(),
        e.consistency(),
        e.outlook(),
        e.balance(),
        e.residual(),
        e.usedUp(),
        e.testDue());
  }

  /** The same with another residual. */
  public static Estimate with(Estimate e, Residual residual) {
    return new Estimate(
        e.freeChlorineMgL(),
        e.freeChlorineSdMgL(),
        e.demandMgLDay(),
        e.demandSdMgLDay(),
        e.orpSetpointMv(),
        e.electrodeOffsetMv(),
        e.consistency(),
        e.outlook(),
        e.balance(),
        residual,
        e.usedUp(),
        e.testDue());
  }

  /** The same after so many tests in a row that found chlorine used up. */
  public static Estimate withUsedUp(Estimate e, int tests) {
    return new Estimate(
        e.freeChlorineMgL(),
        e.freeChlorineSdMgL(),
        e.demandMgLDay(),
        e.demandSdMgLDay(),
        e.orpSetpointMv(),
        e.electrodeOffsetMv(),
        e.consistency(),
        e.outlook(),
        e.balance(),
        e.residual(),
        tests,
        e.testDue());
  }
}
