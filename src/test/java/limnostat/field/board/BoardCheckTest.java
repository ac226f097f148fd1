package limnostat.field.board;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.pi4j.boardinfo.definition.BoardModel;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import limnostat.actuate.Output;
import limnostat.config.FieldSettings.AdcInput;
import limnostat.config.FieldSettings.Board;
import limnostat.config.FieldSettings.LineOut;
import limnostat.config.FieldSettings.OneWire;
import limnostat.field.board.BoardCheck.Finding;
import limnostat.measure.Role;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class BoardCheckTest {
  @TempDir Path dev;
  @TempDir Path sysfs;

  private Board settings() {
    return new Board(
        1,
        Map.of(Role.ORP_MV, new AdcInput(0x48, 0, 4096, 0, 1)),
        Optional.of(new OneWire("28-a")),
        Map.of(),
        Optional.empty(),
        Map.of(Output.CHLORINE, new LineOut(17, true)),
        Optional.empty(),
        sysfs);
  }

  @Test
  void findsWhatIsThere() throws IOException {
    Files.createFile(dev.resolve("gpiochip0"));
    Files.createFile(dev.resolve("i2c-1"));
    Path device = Files.createDirectories(sysfs.resolve("bus/w1/devices/28-a"));
    Files.writeString(device.resolve("w1_slave"), "72 01 : crc=57 YES\n72 01 t=23125\n");
    List<Finding> findings = BoardCheck.check(settings(), dev, BoardModel.MODEL_4_B);
    assertTrue(findings.stream().allMatch(Finding::good), findings.toString());
    assertEquals(4, findings.size());
    assertEquals("1-wire thermometer 28-a: 23.1 °C", findings.get(3).text());
  }

  @Test
  void namesWhatIsNotThereWithTheMend() {
    List<Finding> findings = BoardCheck.check(settings(), dev, BoardModel.UNKNOWN);
    assertTrue(findings.stream().noneMatch(Finding::good), findings.toString());
    assertTrue(findings.get(0).text().contains("this machine is no board that Pi4J knows"));
    assertTrue(findings.get(1).text().contains("no " + dev + "/gpiochip*"));
    assertTrue(findings.get(2).text().contains("I2C bus 1: no " + dev + "/i2c-1; enable it"));
    assertTrue(findings.get(3).text().contains("no 1-wire bus"));
  }

  @Test
  void looksOnlyAtWhatIsConfigured() {
    Board nothing =
        new Board(
            1,
            Map.of(),
            Optional.empty(),
            Map.of(),
            Optional.empty(),
            Map.of(),
            Optional.empty(),
            sysfs);
    assertEquals(List.of(), BoardCheck.check(nothing, dev, BoardModel.UNKNOWN));
  }
}
