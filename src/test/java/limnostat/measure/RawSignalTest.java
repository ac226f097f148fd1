package limnostat.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumMap;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.function.Supplier;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Whatever comes in, a value that may be used is a number in the believable range, and a good one
 * comes from a sample of this very scan.
 */
class RawSignalTest {
  private static final ProbeSettings ORP = new ProbeSettings(100, 1000, 5, 0.05, 3600, 60);
  private static final ProbeSettings PH = new ProbeSettings(4, 10, 0.05, 0.0005, 3600, 60);
  private static final ProbeSettings WATER = new ProbeSettings(-2, 50, 0.2, 0, 0, 60);

  private static final double[] EXTREMES = {
    Double.NaN,
    Double.POSITIVE_INFINITY,
    Double.NEGATIVE_INFINITY,
    Double.MAX_VALUE,
    -Double.MAX_VALUE,
    Double.MIN_VALUE,
    0,
    -0.0,
    5,
    1e6,
    -1e6
  };

  private final Random random = new Random();

  /** What a kind of source gives; each stays for a while, so that dropouts and recoveries mix. */
  private Signal any(int kind, double usual) {
    return switch (kind) {
      case 0, 1, 2 -> new Signal.Analog(usual + random.nextGaussian() * 0.01 * Math.abs(usual));
      case 3 -> new Signal.Analog(EXTREMES[random.nextInt(EXTREMES.length)]);
      case 4 -> new Signal.Analog(random.nextBoolean() ? usual : 50 * usual);
      case 5 -> new Signal.Analog(Double.longBitsToDouble(random.nextLong()));
      case 6 -> new Signal.Missing("unplugged");
      case 7 -> new Signal.Contact(random.nextBoolean());
      default -> new Signal.Analog(usual);
    };
  }

  private static void assertSound(ProbeSettings range, Measurement m, Supplier<String> where) {
    if (m instanceof Measurement.Value v) {
      assertTrue(
          v.value() >= range.rangeMin() && v.value() <= range.rangeMax(), () -> where.get() + m);
      assertTrue(v.ageS() >= 0 && v.ageS() <= range.staleS(), () -> where.get() + m);
      assertEquals(v.ageS() == 0, v.status() == Status.GOOD, () -> where.get() + m);
      assertEquals(v.ageS() == 0, v.failed().isEmpty(), () -> where.get() + m);
    } else {
      assertTrue(m.status().compareTo(Status.FUNCTION_CHECK) >= 0, () -> where.get() + m);
      assertEquals(1, m.failed().size(), () -> where.get() + m);
      m.shown().ifPresent(shown -> assertTrue(Double.isFinite(shown), () -> where.get() + m));
    }
  }

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8})
  void aUsableValueIsAlwaysBelievable(long seed) {
    random.setSeed(seed);
    MeasureSettings settings =
        new MeasureSettings(
            ORP,
            20 * random.nextGaussian() / 3,
            PH,
            new PhCalibration(5 * random.nextGaussian(), 0.98),
            WATER,
            25,
            new FlowSensor.Switch(),
            60,
            Set.of());
    MeasureState state = MeasureState.START;
    int[] kind = new int[4];
    int good = 0;
    int failed = 0;
    double orpMv = 700;
    for (int i = 0; i < 10_000; i++) {
      for (int k = 0; k < kind.length; k++) {
        kind[k] = random.nextInt(40) == 0 ? random.nextInt(10) : kind[k];
      }
      orpMv = Math.max(600, Math.min(780, orpMv + random.nextGaussian()));
      Map<Role, Signal> signals = new EnumMap<>(Role.class);
      signals.put(Role.ORP_MV, any(kind[0], orpMv));
      signals.put(Role.PH_MV, any(kind[1], -30));
      signals.put(Role.WATER_C, any(kind[2], 25));
      signals.put(Role.FLOW, kind[3] == 3 ? any(3, 1) : new Signal.Contact(kind[3] != 6));
      double dtS = random.nextInt(10) == 0 ? 60 * random.nextDouble() : 1;
      Measure.Result result = Measure.step(settings, state, Signals.of(signals), dtS);
      Measurements m = result.measurements();
      int step = i;
      MeasureState before = state;
      Supplier<String> where =
          () -> "seed " + seed + ", step " + step + ", " + signals + " after " + before + ": ";
      assertSound(ORP, m.orpMv(), where);
      assertSound(PH, m.ph(), where);
      assertSound(WATER, m.waterC(), where);
      good += m.orpMv().status() == Status.GOOD ? 1 : 0;
      failed += m.orpMv().status() == Status.FAILURE ? 1 : 0;
      state = random.nextInt(2000) == 0 ? result.state().interrupted(600) : result.state();
    }
    assertTrue(good > 500 && failed > 500, good + " good, " + failed + " failed");
  }
}
