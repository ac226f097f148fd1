package limnostat.scan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.List;
import limnostat.measure.CalibrationAge;
import limnostat.measure.MeasureSettings;
import limnostat.measure.PhCalibration;
import limnostat.measure.Role;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/**
 * Calibration by command. Buffers and their pH at 25 °C: 6.865 and 4.006 (NIST, as in
 * water-chemistry section 4); 59.159 mV a pH at 25 °C (S = 1000 R T ln 10/F, SI 2019 constants),
 * worked by hand.
 */
class CalibrationTest {
  private static final double PH7 = 6.865;
  private static final double PH4 = 4.006;

  /** An electrode of 95 % with 5 mV: 5 + 0.95 × 59.159 × (7 − 6.865), and the same for 4.006. */
  private static final double MV_AT_PH7 = 12.587;

  private static final double MV_AT_PH4 = 173.266;

  private final Asking pool = new Asking(TestSettings.pool());

  private static MeasureSettings with(MeasureSettings m, PhCalibration ph, double orpOffsetMv) {
    return new MeasureSettings(
        m.orp(),
        orpOffsetMv,
        m.ph(),
        ph,
        m.water(),
        m.waterFallbackC(),
        m.flow(),
        m.freshWaterS(),
        m.fitted(),
        CalibrationAge.NOT_TOLD,
        CalibrationAge.NOT_TOLD,
        m.pumpSign());
  }

  private static ScanSettings file(PhCalibration ph, double orpOffsetMv) {
    ScanSettings s = TestSettings.pool();
    return new ScanSettings(
        with(s.measure(), ph, orpOffsetMv),
        s.estimate(),
        s.control(),
        s.limits(),
        s.chlorine(),
        s.acid());
  }

  private MeasureSettings counting() {
    return pool.state.asked().calibrations().on(pool.settings.measure());
  }

  private void stand(double seconds) {
    for (int i = 0; i < seconds; i++) {
      pool.pass(1);
    }
  }

  @BeforeEach
  void check() {
    assertEquals("accepted", pool.ask(new Command.FunctionCheck(3600)));
    pool.analog(Role.ORP_MV, 460);
    pool.analog(Role.PH_MV, MV_AT_PH7);
    stand(40);
  }

  @Test
  void onePointGivesTheOffset() {
    // E - S (7 - pH) = 12.587 - 59.159 × 0.135 = 4.60
    assertEquals(
        "accepted: offset 4.6 mV, slope 100.0 % of Nernst's; before: offset 0.0 mV, slope 100.0 %"
            + " of Nernst's; another buffer in this function check gives the slope too",
        pool.ask(new Command.CalibratePh(PH7, 25)));
    assertEquals(4.600, counting().phCalibration().offsetMv(), 1e-3);
    assertTrue(
        pool.out.events().stream()
            .anyMatch(
                e ->
                    e instanceof ScanEvent.SetpointChanged c
                        && c.name().equals("ph_offset_mv")
                        && c.origin().equals("mqtt")));
  }

  @Test
  void twoPointsGiveOffsetAndSlope() {
    pool.ask(new Command.CalibratePh(PH7, 25));
    pool.analog(Role.PH_MV, MV_AT_PH4);
    stand(40);
    assertTrue(
        pool.ask(new Command.CalibratePh(PH4, 25))
            .startsWith("accepted: offset 5.0 mV, slope 95.0 % of Nernst's; before"));
    assertEquals(5, counting().phCalibration().offsetMv(), 0.01);
    assertEquals(0.95, counting().phCalibration().slopeFraction(), 1e-4);
    assertEquals(Asking.NOW_UNIX_S, counting().phCalibrated().atUnixS().orElseThrow());
  }

  @Test
  void theOrpOffsetIsWhatTheStandardLacks() {
    assertEquals(
        "accepted: offset 10.0 mV; before: offset 0.0 mV", pool.ask(new Command.CalibrateOrp(470)));
    assertEquals(10, counting().orpOffsetMv(), 1e-9);
  }

  @Test
  void onlyInAFunctionCheck() {
    pool.ask(new Command.FunctionCheck(0));
    for (Command c :
        List.of(
            new Command.CalibratePh(PH7, 25),
            new Command.CalibrateOrp(470),
            new Command.CalibrateUndo(Role.PH_MV))) {
      assertTrue(pool.ask(c).contains("needs a function check"), pool.ask(c));
    }
  }

  @Test
  void onlyByASignalThatStandsStill() {
    pool.analog(Role.PH_MV, MV_AT_PH7 + 2);
    stand(20);
    assertEquals(
        "ph_mv has stood within 1 mV for 19 s only, and 30 s are wanted; wait and send it again"
            + " with another request_id",
        pool.ask(new Command.CalibratePh(PH7, 25)));
    pool.signals.remove(Role.PH_MV);
    pool.pass(1);
    assertEquals("ph_mv has no signal to calibrate by", pool.ask(new Command.CalibratePh(PH7, 25)));
  }

  /** 85 to 105 % and 30 mV for pH, 50 mV for ORP: water-chemistry sections 3 and 4. */
  @Test
  void whatIsNotBelievableChangesNothing() {
    String offset = pool.ask(new Command.CalibratePh(6, 25));
    assertTrue(offset.startsWith("offset -46.6 mV, slope 100.0 % of Nernst's is not"), offset);
    pool.ask(new Command.CalibratePh(PH7, 25));
    PhCalibration before = counting().phCalibration();
    // The electrode still stands in the same buffer: its slope would be none.
    assertTrue(pool.ask(new Command.CalibratePh(PH4, 25)).contains("not believable"));
    assertEquals(before, counting().phCalibration());
    assertTrue(pool.ask(new Command.CalibrateOrp(511)).contains("within 50 mV is"));
    assertEquals(0, counting().orpOffsetMv());
  }

  @Test
  void undoneItIsTheFilesAgain() {
    assertTrue(pool.ask(new Command.CalibrateUndo(Role.ORP_MV)).contains("file's values count"));
    pool.ask(new Command.CalibrateOrp(470));
    assertEquals(
        "accepted: offset 0.0 mV; before: offset 10.0 mV",
        pool.ask(new Command.CalibrateUndo(Role.ORP_MV)));
    assertEquals(pool.settings.measure(), counting());
  }

  @Test
  void itSurvivesARestartUntilTheFileSaysSomethingElse() throws IOException {
    pool.ask(new Command.CalibrateOrp(470));
    pool.ask(new Command.CalibratePh(PH7, 25));
    pool.restart();
    assertEquals(10, counting().orpOffsetMv(), 1e-9);
    pool.settings = file(PhCalibration.IDEAL, -3);
    pool.restart();
    assertEquals(-3, counting().orpOffsetMv(), "the file's, which was changed later");
    assertEquals(4.600, counting().phCalibration().offsetMv(), 1e-3, "the file's pH was not");
  }

  /** Without a clock that is believed the reminder goes on by the file's date. */
  @Test
  void withoutAClockNoDateIsMade() {
    pool.clockTrusted = false;
    pool.ask(new Command.CalibrateOrp(470));
    assertEquals(pool.settings.measure().orpCalibrated(), counting().orpCalibrated());
  }
}
