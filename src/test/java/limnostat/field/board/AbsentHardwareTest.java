package limnostat.field.board;

import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import limnostat.actuate.Output;
import limnostat.actuate.Outputs;
import limnostat.config.FieldSettings.AdcInput;
import limnostat.config.FieldSettings.Board;
import limnostat.config.FieldSettings.LineIn;
import limnostat.config.FieldSettings.LineOut;
import limnostat.config.FieldSettings.OneWire;
import limnostat.config.FieldSettings.Pull;
import limnostat.field.FieldException;
import limnostat.measure.Role;
import limnostat.measure.Signal;
import limnostat.measure.Signals;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Pi4J's real providers, asked for a bus and lines that no machine has. */
class AbsentHardwareTest {
  private static final int BUS = 250;
  private static final int LINE = 9_998;

  @Test
  void namesEveryDeviceAndStaysUp(@TempDir Path sysfs) throws Exception {
    Board settings =
        new Board(
            BUS,
            Map.of(Role.ORP_MV, new AdcInput(0x48, 0, 4096, 0, 1)),
            Optional.of(new OneWire("28-a")),
            Map.of(Role.FLOW, new LineIn(LINE, true, Pull.UP)),
            Optional.empty(),
            Map.of(Output.CHLORINE, new LineOut(LINE + 1, true)),
            Optional.empty(),
            sysfs);
    try (BoardField field = BoardField.open(settings)) {
      TestBoard.await("four reasons", () -> !field.problems().toString().contains("under way"));
      Signals signals = field.read(0, 0);
      assertReason(
          signals,
          Role.ORP_MV,
          "I2C bus 250 address 0x48: Sysfs validation failed for I2C bus 250",
          "enable the bus");
      assertReason(signals, Role.FLOW, "GPIO input line 9998 (flow) cannot be opened", "");
      assertReason(signals, Role.WATER_C, "28-a is not on the bus", "no 1-wire bus");
      String message =
          assertThrows(FieldException.class, () -> field.write(Outputs.OFF)).getMessage();
      assertTrue(message.contains("GPIO output line 9999 (chlorine) cannot be opened"), message);
      field.off();
    }
  }

  private static void assertReason(Signals signals, Role role, String cause, String mend) {
    String text = signals.of(role).toString();
    assertTrue(signals.of(role) instanceof Signal.Missing, text);
    assertTrue(text.contains(cause), text);
    assertTrue(text.contains(mend), text);
  }
}
