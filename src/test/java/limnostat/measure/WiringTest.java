package limnostat.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class WiringTest {
  @ParameterizedTest
  @CsvSource({
    "1200.1, OPEN",
    "-1200.1, OPEN",
    "1200, RANGE",
    "5.1, RANGE",
    "-5.1, RANGE",
    "5, SHORT",
    "-5, SHORT",
    "0, SHORT",
    "NaN, RANGE"
  })
  void aPotentialTellsOfItsWiring(double mv, Plausibility wiring) {
    assertEquals(wiring, Wiring.of(OptionalDouble.of(mv), 1200));
  }

  @Test
  void withoutASignalNothingIsTold() {
    assertEquals(Plausibility.RANGE, Wiring.of(OptionalDouble.empty(), 1200));
  }

  private static Measurements measured(double orpMv, double phMv, double waterC) {
    MeasureSettings settings =
        new MeasureSettings(
            new ProbeSettings(100, 1000, 5, 0, 0, 60),
            0,
            new ProbeSettings(4, 10, 0.05, 0, 0, 60),
            PhCalibration.IDEAL,
            new ProbeSettings(-2, 50, 0.2, 0, 0, 60),
            25,
            new FlowSensor.Switch(),
            0,
            Set.of());
    Map<Role, Signal> signals = new EnumMap<>(Role.class);
    signals.put(Role.ORP_MV, new Signal.Analog(orpMv));
    signals.put(Role.PH_MV, new Signal.Analog(phMv));
    signals.put(Role.WATER_C, new Signal.Analog(waterC));
    signals.put(Role.FLOW, new Signal.Contact(true));
    return Measure.step(settings, MeasureState.START, Signals.of(signals), 1).measurements();
  }

  @Test
  void faultsOfTheWiresAreNamed() {
    assertEquals(List.of(Plausibility.SHORT), measured(1, -30, 25).orpMv().failed());
    assertEquals(List.of(Plausibility.OPEN), measured(2047, -30, 25).orpMv().failed());
    assertEquals(List.of(Plausibility.RANGE), measured(1100, -30, 25).orpMv().failed());
    assertEquals(List.of(Plausibility.OPEN), measured(700, 1000, 25).ph().failed());
    assertEquals(List.of(Plausibility.RANGE), measured(700, 300, 25).ph().failed());
    assertEquals(List.of(Plausibility.RANGE), measured(700, -30, 85).waterC().failed());
    assertTrue(measured(700, 1, 25).ph().fresh(), "0 mV is pH 7");
  }

  @Test
  void thePumpRestsByItsContactOrItsRequest() {
    Signals open = Signals.of(Map.of(Role.PUMP_ON, new Signal.Contact(false)));
    Signals closed = Signals.of(Map.of(Role.PUMP_ON, new Signal.Contact(true)));
    Signals none = Signals.of(Map.of());
    for (boolean requested : new boolean[] {true, false}) {
      assertTrue(PumpSign.CONTACT.rests(open, requested));
      assertFalse(PumpSign.CONTACT.rests(closed, requested));
      assertFalse(PumpSign.CONTACT.rests(none, requested), "what cannot be read shows nothing");
      assertFalse(PumpSign.NONE.rests(open, requested));
      assertEquals(!requested, PumpSign.REQUEST.rests(none, requested));
    }
  }
}
