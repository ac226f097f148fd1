package limnostat.safety;

import java.util.Map;

/**
 * What the interlocks remember of process and people.
 *
 * @param response whether ORP answers what is fed
 * @param acid whether pH answers what is fed
 * @param functionCheckS time left of a person's function check, s; 0: none
 * @param configured the configuration, and what was changed of it
 */
public record ProcessWatch(
    Response response, AcidResponse acid, double functionCheckS, Configured configured) {
  public static final ProcessWatch START =
      new ProcessWatch(Response.START, AcidResponse.START, 0, Configured.UNKNOWN);

  /** What is read back from a ledger is checked as a stranger's would be. */
  public ProcessWatch {
    if (!(functionCheckS >= 0 && functionCheckS <= HardBounds.FUNCTION_CHECK_MAX_S)) {
      throw new IllegalArgumentException("a function check of " + functionCheckS + " s");
    }
  }

  ProcessWatch step(
      ProcessLimits limits, Response.Inputs in, AcidResponse.Inputs acidIn, double elapsedS) {
    return new ProcessWatch(
        response.step(in, limits.noResponseMgL(), elapsedS),
        acid.step(acidIn, elapsedS),
        functionCheckS,
        configured.passed(elapsedS));
  }

  /**
   * Time has passed under a function check. This goes before the commands of a scan: a check that
   * begins with it has all of its time, however long nobody looked before.
   */
  public ProcessWatch checkPassed(double elapsedS) {
    return checkedFor(Math.max(0, functionCheckS - elapsedS));
  }

  public boolean checking() {
    return functionCheckS > 0;
  }

  /**
   * @param forS how long it may take, s; 0: it is over
   */
  public ProcessWatch checkedFor(double forS) {
    return new ProcessWatch(response, acid, forS, configured);
  }

  /** A process begins with these options. */
  public ProcessWatch configuredBy(Map<String, String> options) {
    return new ProcessWatch(response, acid, functionCheckS, configured.configuredBy(options));
  }

  ProcessWatch forgotten() {
    return new ProcessWatch(response.forgotten(), acid, functionCheckS, configured);
  }
}
