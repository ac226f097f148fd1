package limnostat.scan;

import java.util.ArrayList;
import java.util.List;

/** Which of the values that are set at run time have changed between two states. */
public final class Setpoints {
  /** What changed by a restart with another file. */
  public static final String FILE = "file";

  private Setpoints() {}

  private record Value(String name, double value) {}

  /**
   * @param origin who or what changed them
   */
  public static List<ScanEvent> changes(ScanState before, ScanState after, String origin) {
    List<ScanEvent> changes = new ArrayList<>();
    List<Value> was = of(before);
    List<Value> is = of(after);
    for (int i = 0; i < was.size(); i++) {
      if (was.get(i).value != is.get(i).value) {
        changes.add(
            new ScanEvent.SetpointChanged(
                was.get(i).name, was.get(i).value, is.get(i).value, origin));
      }
    }
    return changes;
  }

  private static List<Value> of(ScanState s) {
    return List.of(
        new Value("target_free_chlorine_mg_l", s.control().targetMgL()),
        new Value("manual_duty", s.control().manualDuty()),
        new Value("superchlorination_mg_l", s.control().superchlorination().levelMgL()),
        new Value("superchlorination_left_s", s.control().superchlorination().leftS()));
  }
}
