package limnostat.scan;

import java.util.ArrayList;
import java.util.List;
import limnostat.measure.Role;

/** Which of the values that are set at run time have changed between two states. */
public final class Setpoints {
  /** Origin of changes by a restart with another file. */
  public static final String FILE = "file";

  private Setpoints() {}

  private record Value(String name, double value) {}

  /**
   * @param origin who or what changed them
   */
  public static List<ScanEvent> changes(ScanState before, ScanState after, String origin) {
    return changes(of(before), of(after), origin);
  }

  private static List<ScanEvent> changes(List<Value> was, List<Value> is, String origin) {
    List<ScanEvent> changes = new ArrayList<>();
    for (int i = 0; i < was.size(); i++) {
      if (was.get(i).value != is.get(i).value) {
        changes.add(
            new ScanEvent.SetpointChanged(
                was.get(i).name, was.get(i).value, is.get(i).value, origin));
      }
    }
    return changes;
  }

  /** The same, including calibrations. */
  static List<ScanEvent> changes(
      ScanSettings settings, ScanState before, ScanState after, String origin) {
    List<ScanEvent> changes = changes(before, after, origin);
    Calibrations was = before.asked().calibrations();
    Calibrations is = after.asked().calibrations();
    if (!was.made().equals(is.made())) {
      changes.addAll(changes(calibrations(settings, was), calibrations(settings, is), origin));
    }
    return changes;
  }

  private static List<Value> calibrations(ScanSettings settings, Calibrations c) {
    Calibrations.Values ph = c.of(Role.PH_MV, settings.measure());
    return List.of(
        new Value("ph_offset_mv", ph.offsetMv()),
        new Value("ph_slope_fraction", ph.slopeFraction()),
        new Value("orp_offset_mv", c.of(Role.ORP_MV, settings.measure()).offsetMv()));
  }

  private static List<Value> of(ScanState s) {
    return List.of(
        new Value("target_free_chlorine_mg_l", s.control().targetMgL()),
        new Value("manual_duty", s.control().manualDuty()),
        new Value("manual_left_s", s.asked().manual().leftS()),
        new Value("superchlorination_mg_l", s.control().superchlorination().levelMgL()),
        new Value("superchlorination_left_s", s.control().superchlorination().leftS()));
  }
}
