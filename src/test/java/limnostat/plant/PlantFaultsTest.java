package limnostat.plant;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumSet;
import limnostat.actuate.Output;
import limnostat.actuate.Outputs;
import limnostat.measure.Role;
import limnostat.measure.Signal;
import org.junit.jupiter.api.Test;

class PlantFaultsTest {
  private static final double START = 1_782_864_000.0;
  private static final Outputs PUMP = new Outputs(0, 0, true);
  private static final Outputs FEED = new Outputs(1, 0, true);

  /** From minute 10 to minute 20. */
  private static final PlantFault.Span SPAN = new PlantFault.Span(START + 600, START + 1200);

  private final Pool pool = new Pool(PlantSettings.domestic(1), START);
  private final Pool healthy = new Pool(PlantSettings.domestic(1), START);

  private void toMinute(double minute, Outputs outputs) {
    pool.advance(START + 60 * minute, outputs);
    healthy.advance(START + 60 * minute, outputs);
  }

  private double seen(Role role) {
    return ((Signal.Analog) pool.signals().of(role)).value();
  }

  private double healthy(Role role) {
    return ((Signal.Analog) healthy.signals().of(role)).value();
  }

  @Test
  void flowIsLostThoughThePumpRuns() {
    pool.inject(new PlantFault.FlowLost(SPAN));
    toMinute(9, PUMP);
    assertEquals(new Signal.Contact(true), pool.signals().of(Role.FLOW));
    toMinute(15, PUMP);
    assertEquals(new Signal.Contact(false), pool.signals().of(Role.FLOW));
    assertEquals(new Signal.Contact(true), pool.signals().of(Role.PUMP_ON));
    toMinute(21, PUMP);
    assertEquals(new Signal.Contact(true), pool.signals().of(Role.FLOW));
  }

  @Test
  void unpluggedProbeIsMissingWithAReason() {
    for (Role role : new Role[] {Role.ORP_MV, Role.PH_MV, Role.WATER_C}) {
      pool.inject(new PlantFault.Unplugged(role, SPAN));
    }
    toMinute(15, PUMP);
    for (Role role : new Role[] {Role.ORP_MV, Role.PH_MV, Role.WATER_C}) {
      Signal.Missing missing = (Signal.Missing) pool.signals().of(role);
      assertTrue(missing.reason().contains(role.key()));
    }
    toMinute(25, PUMP);
    assertEquals(healthy(Role.ORP_MV), seen(Role.ORP_MV), 5);
  }

  @Test
  void openWireDriftsToTheRail() {
    pool.inject(new PlantFault.OpenWire(Role.ORP_MV, 2048, 30, SPAN));
    pool.inject(new PlantFault.OpenWire(Role.FLOW, 0, 1, SPAN));
    toMinute(10.5, PUMP);
    double after30s = seen(Role.ORP_MV);
    assertTrue(after30s > healthy(Role.ORP_MV) + 20 && after30s < 2048, "at " + after30s);
    assertEquals(new Signal.Contact(false), pool.signals().of(Role.FLOW));
    toMinute(19, PUMP);
    assertEquals(2048, seen(Role.ORP_MV), 1);
  }

  @Test
  void frozenSignalKeepsItsValueAndThawsAgain() {
    pool.inject(new PlantFault.Frozen(Role.PH_MV, SPAN));
    toMinute(11, PUMP);
    double frozen = seen(Role.PH_MV);
    for (int minute = 12; minute < 20; minute++) {
      toMinute(minute, PUMP);
      assertEquals(frozen, seen(Role.PH_MV));
      assertNotEquals(frozen, healthy(Role.PH_MV));
    }
    toMinute(21, PUMP);
    assertNotEquals(frozen, seen(Role.PH_MV));
  }

  @Test
  void offsetIsAddedToWhatTheProbeReads() {
    pool.inject(new PlantFault.Offset(Role.ORP_MV, 80, SPAN));
    toMinute(15, PUMP);
    // the same generators, so the same noise but for the number of steps
    assertEquals(healthy(Role.ORP_MV) + 80, seen(Role.ORP_MV), 1e-9);
  }

  @Test
  void rampAddsLittleByLittleAndStays() {
    pool.inject(new PlantFault.Ramp(Role.WATER_C, -20, 300, SPAN));
    toMinute(11, PUMP);
    assertEquals(healthy(Role.WATER_C) - 4, seen(Role.WATER_C), 1e-9);
    toMinute(19, PUMP);
    assertEquals(healthy(Role.WATER_C) - 20, seen(Role.WATER_C), 1e-9);
    toMinute(21, PUMP);
    assertEquals(healthy(Role.WATER_C), seen(Role.WATER_C), 1e-9);
  }

  @Test
  void scaledSignalIsAMultiple() {
    pool.inject(new PlantFault.Scaled(Role.CELL_A, 0.5, SPAN));
    toMinute(15, FEED);
    assertEquals(0.5 * healthy(Role.CELL_A), seen(Role.CELL_A), 1e-9);
    toMinute(16, PUMP);
    assertEquals(0, seen(Role.CELL_A));
  }

  @Test
  void deafSignalHumsAboutItsLastValue() {
    toMinute(10, FEED);
    double last = seen(Role.ORP_MV);
    pool.inject(new PlantFault.Deaf(Role.ORP_MV, 0.5, SPAN));
    double least = Double.POSITIVE_INFINITY;
    double most = Double.NEGATIVE_INFINITY;
    for (int s = 601; s < 1200; s++) {
      pool.advance(START + s, FEED);
      least = Math.min(least, seen(Role.ORP_MV));
      most = Math.max(most, seen(Role.ORP_MV));
    }
    // The first sample of the fault is what it keeps; the electrode's own noise is a mV or so.
    assertEquals(last, (least + most) / 2, 5);
    assertEquals(1, most - least, 0.01);
  }

  @Test
  void deadOutputGivesNothingAndTakesNoCurrent() {
    pool.inject(new PlantFault.OutputDead(Output.CHLORINE, SPAN));
    toMinute(10, FEED);
    double before = pool.truth().chlorineGivenG();
    assertTrue(before > 2, "given " + before);
    toMinute(20, FEED);
    assertEquals(before, pool.truth().chlorineGivenG());
    assertEquals(0, seen(Role.CELL_A));
    toMinute(21, FEED);
    assertTrue(seen(Role.CELL_A) > 3);
  }

  @Test
  void stuckRelayFeedsAgainstTheCommand() {
    pool.inject(new PlantFault.RelayStuckOn(Output.CHLORINE, SPAN));
    toMinute(9, PUMP);
    assertEquals(0, seen(Role.CELL_A));
    toMinute(20, Outputs.OFF);
    assertTrue(seen(Role.CELL_A) > 3);
    assertEquals(20 * 0.92 / 6, pool.truth().chlorineGivenG(), 0.15); // ten minutes of 18.4 g/h
  }

  @Test
  void emptyTankGivesNothingAndSaysSo() {
    PlantSettings liquid =
        PlantSettings.domestic(1)
            .withDoser(new DoserSettings.Liquid(100, 12.5, 1, 20, 0.01))
            .withFitted(EnumSet.of(Role.FLOW, Role.TANK_LOW), false);
    Pool tank = new Pool(liquid, START);
    tank.inject(new PlantFault.TankEmpty(Output.CHLORINE, SPAN));
    tank.advance(START + 600, FEED);
    assertEquals(100 / 6.0, tank.truth().chlorineGivenG(), 0.2);
    tank.advance(START + 1199, FEED);
    assertEquals(100 / 6.0, tank.truth().chlorineGivenG(), 0.2);
    assertEquals(new Signal.Contact(true), tank.signals().of(Role.TANK_LOW));
    tank.advance(START + 1300, FEED);
    assertEquals(new Signal.Contact(false), tank.signals().of(Role.TANK_LOW));
  }

  @Test
  void spanMustRunForwards() {
    assertThrows(IllegalArgumentException.class, () -> new PlantFault.Span(2, 1));
    assertThrows(IllegalArgumentException.class, () -> new PlantFault.Span(Double.NaN, 1));
  }
}
