package limnostat.daemon;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import limnostat.alarm.AlarmState;
import limnostat.control.ControlLevel;
import limnostat.safety.Cause;
import limnostat.scan.ScanEvent;
import org.junit.jupiter.api.Test;

class EventLogTest {
  private final List<EventLog.Line> lines = Collections.synchronizedList(new ArrayList<>());

  private List<EventLog.Line> logged(ScanEvent... events) {
    try (EventLog log = new EventLog(lines::add)) {
      List.of(events).forEach(log::log);
    }
    return lines;
  }

  @Test
  void anAlarmThatIsRaisedIsToldWithAdviceAndDetail() {
    assertEquals(
        List.of(
            new EventLog.Line(
                true,
                "alarm output_too_small (high) unacknowledged: output too small for what the"
                    + " pool uses. "
                    + Cause.OUTPUT_TOO_SMALL.advice()
                    + " 139 g against 44 g."),
            new EventLog.Line(false, "alarm test_due (low) normal: water test wanted")),
        logged(
            new ScanEvent.AlarmChanged(
                Cause.OUTPUT_TOO_SMALL,
                AlarmState.NORMAL,
                AlarmState.UNACKNOWLEDGED,
                Optional.of("139 g against 44 g.")),
            new ScanEvent.AlarmChanged(
                Cause.TEST_DUE, AlarmState.RETURNED_UNACKNOWLEDGED, AlarmState.NORMAL)));
  }

  @Test
  void remarksAndRungsAreTold() {
    assertEquals(
        List.of(
            new EventLog.Line(false, "command mode from mqtt accepted: but"),
            new EventLog.Line(false, "control stands on learned_demand, before on plan")),
        logged(
            new ScanEvent.Accepted(Outcomes.mode(), Optional.of("but")),
            new ScanEvent.ControlLevelChanged(ControlLevel.PLAN, ControlLevel.LEARNED_DEMAND)));
  }
}
