package limnostat.field.board;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.pi4j.Pi4J;
import com.pi4j.context.Context;
import com.pi4j.io.i2c.I2C;
import com.pi4j.plugin.mock.provider.i2c.MockI2C;
import com.pi4j.plugin.mock.provider.i2c.MockI2CProvider;
import limnostat.config.FieldSettings.AdcInput;
import limnostat.measure.Signal;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class Ads1115Test {
  private final TestBoard board = new TestBoard();

  private static AdcInput input(int channel, int fullScaleMv) {
    return new AdcInput(0x48, channel, fullScaleMv, 0, 1);
  }

  /** Words put together by hand from the bit table of the data sheet [memory]. */
  @ParameterizedTest
  @CsvSource({
    "0, 4096, C383",
    "1, 4096, D383",
    "3, 6144, F183",
    "2, 2048, E583",
    "0, 1024, C783",
    "0, 512, C983",
    "0, 256, CB83"
  })
  void startsOneConversionOfTheChannelInItsRange(int channel, int fullScaleMv, String word) {
    assertEquals(Integer.parseInt(word, 16), Ads1115.startWord(input(channel, fullScaleMv)));
  }

  /** One code is full scale / 2¹⁵: 0.125 mV at 4096 mV, 7.8125 µV at 256 mV [memory]. */
  @ParameterizedTest
  @CsvSource({
    "4096, 0, 0",
    "4096, 1, 0.125",
    "4096, -1, -0.125",
    "4096, 16384, 2048",
    "4096, -16384, -2048",
    "4096, 32766, 4095.75",
    "4096, -32767, -4095.875",
    "256, 1, 0.0078125",
    "6144, 5333, 999.9375"
  })
  void turnsCodesIntoMv(int fullScaleMv, int code, double expectedMv) {
    assertEquals(new Signal.Analog(expectedMv), Ads1115.signal(input(0, fullScaleMv), code));
  }

  @Test
  void takesTheFrontEndsZeroAndGainOff() {
    // 2048 mV less 1024 mV, at 2 mV a unit
    AdcInput input = new AdcInput(0x48, 0, 4096, 1024, 2);
    assertEquals(new Signal.Analog(512), Ads1115.signal(input, 16384));
  }

  @ParameterizedTest
  @CsvSource({"32767, limit: 4096 mV", "-32768, limit: -4096 mV"})
  void hasNoValueAtEitherEndOfTheScale(int code, String expected) {
    assertReason(expected, Ads1115.signal(input(2, 4096), code));
    assertReason("channel 2", Ads1115.signal(input(2, 4096), code));
  }

  /** Against Pi4J's own mock, whose registers give back what was written, once. */
  @Test
  void readsByRegisters() {
    Context context =
        Pi4J.newContextBuilder().noAutoDetect().add(MockI2CProvider.newInstance()).build();
    try {
      Ads1115 chip = new Ads1115(1, 0x48, context, board.nowNs::get);
      assertReason("register 0 gave -1 of 2 bytes", chip.read(input(0, 4096)));
      board.advanceS(1);
      ((MockI2C) context.<I2C>io("limnostat-i2c-1-72"))
          .writeRegister(0, new byte[] {(byte) 0xC0, 0});
      assertEquals(new Signal.Analog(-2048), chip.read(input(0, 4096)));
    } finally {
      context.shutdown();
    }
  }

  @Test
  void readsEachChannelOfAChip() {
    board.code(0x48, 0, 8);
    board.code(0x48, 3, -8);
    Context context = board.context();
    try {
      Ads1115 chip = new Ads1115(1, 0x48, context, board.nowNs::get);
      assertEquals(new Signal.Analog(1), chip.read(input(0, 4096)));
      assertEquals(new Signal.Analog(-1), chip.read(input(3, 4096)));
      assertEquals(1, board.i2cCreated.size());
    } finally {
      context.shutdown();
    }
  }

  @ParameterizedTest
  @CsvSource({
    "ABSENT, i2c-1' does not exist, enable the bus",
    "NO_ANSWER, No such device or address, address pin",
    "STUCK_HIGH, answers 0xffff where its configuration 0xc383, wires",
    "NEVER_DONE, conversion not done after 21 ms, power"
  })
  void namesBusAddressCauseAndMendAndRecovers(TestBoard.Bus bus, String cause, String mend) {
    Context context = board.context();
    try {
      board.code(0x49, 0, 8);
      board.bus = bus;
      Ads1115 chip = new Ads1115(1, 0x49, context, board.nowNs::get);
      Signal failed = chip.read(input(0, 4096));
      assertReason("I2C bus 1 address 0x49: ", failed);
      assertReason(cause, failed);
      assertReason(mend, failed);

      board.bus = TestBoard.Bus.WELL;
      board.advanceS(0.9);
      assertEquals(failed, chip.read(input(0, 4096)), "left alone for a second");
      board.advanceS(0.2);
      assertEquals(new Signal.Analog(1), chip.read(input(0, 4096)));
    } finally {
      context.shutdown();
    }
  }

  private static void assertReason(String part, Signal signal) {
    String reason = assertInstanceOf(Signal.Missing.class, signal).reason();
    assertTrue(reason.contains(part), reason);
  }
}
