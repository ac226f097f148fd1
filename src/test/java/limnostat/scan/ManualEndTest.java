package limnostat.scan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.OptionalDouble;
import java.util.Set;
import limnostat.control.Mode;
import limnostat.safety.SetpointLimits;
import org.junit.jupiter.api.Test;

/** Manual that ends by itself. */
class ManualEndTest {
  private final Asking pool = new Asking(with(24));

  private static ScanSettings with(double manualMaxH) {
    ScanSettings s = TestSettings.pool();
    return new ScanSettings(
        s.measure(),
        s.estimate(),
        s.control(),
        s.limits(),
        s.chlorine(),
        s.acid(),
        new SetpointLimits(1, 3600, 3600, manualMaxH * 3600),
        Set.of());
  }

  private static Command manual(double duty, double minutes) {
    return new Command.SetMode(
        Mode.MANUAL, OptionalDouble.of(duty), OptionalDouble.of(60 * minutes));
  }

  private static Command mode(Mode mode) {
    return new Command.SetMode(mode, OptionalDouble.empty());
  }

  private Mode now() {
    return pool.state.control().mode();
  }

  @Test
  void itReturnsToTheModeBefore() {
    for (Mode before : new Mode[] {Mode.AUTO, Mode.OFF}) {
      pool.ask(mode(before));
      assertEquals("accepted", pool.ask(manual(0.5, 2)));
      assertTrue(
          pool.out.events().stream()
              .anyMatch(
                  e ->
                      e instanceof ScanEvent.SetpointChanged c
                          && c.name().equals("manual_left_s")
                          && c.to() == 120));
      pool.pass(59);
      pool.pass(60);
      assertEquals(Mode.MANUAL, now(), "a second early");
      pool.pass(1);
      assertEquals(before, now());
      assertTrue(pool.out.events().contains(new ScanEvent.ModeChanged(Mode.MANUAL, before)));
      assertEquals(0, pool.state.asked().manual().leftS());
    }
  }

  @Test
  void anEndThatIsSetAnewLeadsToTheModeBeforeTheFirst() {
    pool.ask(mode(Mode.OFF));
    pool.ask(manual(0.5, 2));
    pool.ask(manual(0.2, 3));
    pool.pass(180);
    assertEquals(Mode.OFF, now());
  }

  @Test
  void manualWithoutAnEndIsWhatItReturnsToWithItsDuty() {
    pool.ask(new Command.SetMode(Mode.MANUAL, OptionalDouble.of(0.1)));
    pool.ask(manual(0.6, 2));
    assertEquals(0.6, pool.state.control().manualDuty());
    pool.pass(120);
    assertEquals(Mode.MANUAL, now());
    assertEquals(0.1, pool.state.control().manualDuty());
  }

  @Test
  void anotherModeEndsIt() {
    pool.ask(mode(Mode.AUTO));
    pool.ask(manual(0.5, 2));
    pool.ask(mode(Mode.OFF));
    pool.pass(300);
    assertEquals(Mode.OFF, now());
  }

  @Test
  void theLimitsAreNamed() {
    assertEquals(
        "minutes 1441 min is above the installer's limit limits.manual_time = 1440 min",
        pool.ask(manual(0.5, 1441)));
    assertEquals(
        "minutes 0 min is below the program's hard bound = 1 min", pool.ask(manual(0.5, 0)));
    assertEquals(
        "minutes goes with mode manual only",
        pool.ask(new Command.SetMode(Mode.AUTO, OptionalDouble.empty(), OptionalDouble.of(600))));
    assertEquals(Mode.AUTO, now());
  }

  @Test
  void itSurvivesARestartAndALowerLimit() throws IOException {
    pool.ask(manual(0.5, 600));
    pool.settings = with(1);
    pool.restart();
    assertEquals(Mode.MANUAL, now());
    pool.pass(3599);
    assertEquals(Mode.MANUAL, now());
    pool.pass(1);
    assertEquals(Mode.AUTO, now());
  }
}
