package limnostat.field.board;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import limnostat.measure.Signal;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ThermometerTest {
  private static final String ID = "28-0123456789ab";

  @TempDir Path sysfs;
  private Path devices;
  private Thermometer thermometer;

  @BeforeEach
  void makeBus() throws IOException {
    devices = Files.createDirectories(sysfs.resolve("bus/w1/devices"));
    thermometer = new Thermometer(sysfs, ID);
  }

  private void shows(String text) throws IOException {
    Files.writeString(Files.createDirectories(devices.resolve(ID)).resolve("w1_slave"), text);
  }

  private static String text(String bytes, String verdict, int milliC) {
    return bytes
        + " : crc="
        + bytes.substring(24)
        + " "
        + verdict
        + "\n"
        + bytes
        + " t="
        + milliC
        + "\n";
  }

  /** 1/16 °C a bit, so 0x0172 is 23.125 °C and 0xffd8 is −2.5 °C [memory of the data sheet]. */
  @ParameterizedTest
  @CsvSource({
    "72 01 4b 46 7f ff 0e 10 57, 23125, 23.125",
    "d8 ff 4b 46 7f ff 08 10 a1, -2500, -2.5",
    "00 00 4b 46 7f ff 0c 10 1c, 0, 0"
  })
  void readsTheKernelsTwoLines(String bytes, int milliC, double expectedC) throws IOException {
    shows(text(bytes, "YES", milliC));
    assertEquals(new Signal.Analog(expectedC), thermometer.read());
  }

  @Test
  void refusesAFailedChecksum() throws IOException {
    shows(text("72 01 4b 46 7f ff 0e 10 57", "NO", 23125));
    assertReason("failed its checksum");
  }

  @Test
  void refusesThePowerOnValueHoweverOftenItComes() throws IOException {
    shows(text("50 05 4b 46 7f ff 0c 10 1c", "YES", 85000));
    assertReason("power-on value");
    assertReason("check its supply");
  }

  @Test
  void refusesABusAtGroundThoughItsChecksumIsRight() throws IOException {
    shows(text("00 00 00 00 00 00 00 00 00", "YES", 0));
    assertReason("short to ground");
  }

  @ParameterizedTest
  @CsvSource({"''", "nonsense", "'72 01 : crc=57 YES'", "'72 01 : crc=57 YES\n72 01 t=warm'"})
  void refusesGarbage(String garbage) throws IOException {
    shows(garbage);
    assertReason("unreadable answer");
  }

  @Test
  void refusesBytesThatAreNoText() throws IOException {
    shows("");
    Files.write(devices.resolve(ID).resolve("w1_slave"), new byte[] {(byte) 0xff, (byte) 0xfe});
    assertReason("cannot be read");
  }

  @Test
  void namesWhatIsOnTheBusInstead() throws IOException {
    Files.createDirectories(devices.resolve("28-00000000000b"));
    Files.createDirectories(devices.resolve("28-00000000000a"));
    Files.createDirectories(devices.resolve("w1_bus_master1"));
    assertReason(ID + " is not on the bus");
    assertReason("found 28-00000000000a, 28-00000000000b; set the id");
  }

  @Test
  void saysWhenNothingIsOnTheBus() throws IOException {
    Files.createDirectories(devices.resolve("w1_bus_master1"));
    assertReason("no device answers");
  }

  @Test
  void saysWhenThereIsNoBus() throws IOException {
    Files.delete(devices);
    assertReason("no 1-wire bus; enable it");
  }

  private void assertReason(String part) {
    String reason = assertInstanceOf(Signal.Missing.class, thermometer.read()).reason();
    assertTrue(reason.contains(part), reason);
  }
}
