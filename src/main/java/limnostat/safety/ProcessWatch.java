package limnostat.safety;

import java.util.Map;

/**
 * What the interlocks remember about the process and about people's actions.
 *
 * @param response whether ORP responds to the chlorine fed
 * @param acid whether pH responds to the acid fed
 * @param functionCheckS remaining time of a function check, s; 0: none
 * @param configured the configuration, and what was changed in it
 */
public record ProcessWatch(
    Response response, AcidResponse acid, double functionCheckS, Configured configured) {
  public static final ProcessWatch START =
      new ProcessWatch(Response.START, AcidResponse.START, 0, Configured.UNKNOWN);

  /** Data read back from a ledger is validated like any untrusted input. */
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
   * Counts down a running function check. Call this before the commands of a scan are applied. Then
   * a check that begins on this scan gets its full time, however long the gap before it was.
   */
  public ProcessWatch checkPassed(double elapsedS) {
    return checkedFor(Math.max(0, functionCheckS - elapsedS));
  }

  public boolean checking() {
    return functionCheckS > 0;
  }

  /**
   * @param forS how long the check may last, s; 0 ends it
   */
  public ProcessWatch checkedFor(double forS) {
    return new ProcessWatch(response, acid, forS, configured);
  }

  /** Called when a process starts with these options. */
  public ProcessWatch configuredBy(Map<String, String> options) {
    return new ProcessWatch(response, acid, functionCheckS, configured.configuredBy(options));
  }

  ProcessWatch forgotten() {
    return new ProcessWatch(response.forgotten(), acid, functionCheckS, configured);
  }
}
