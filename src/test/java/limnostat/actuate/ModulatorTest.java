package limnostat.actuate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import limnostat.actuate.OutputSettings.Drive;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class ModulatorTest {
  private static final OutputSettings RELAY =
      new OutputSettings(Drive.RELAY, 600, 60, 60, 1e9, 600);

  /**
   * No gram is lost to rounding, whatever the duty, down to one that needs hours for one shortest
   * on time.
   */
  @ParameterizedTest
  @ValueSource(doubles = {0, 0.003, 0.05, 0.1, 0.37, 0.5, 0.77, 0.93, 0.99, 1})
  void givesTheDutyInTheLongRun(double duty) {
    Random random = new Random(3);
    Modulator.State state = Modulator.start(RELAY);
    double on = 0;
    double time = 0;
    while (time < 30 * 86_400) {
      double dt = 0.1 + 20 * random.nextDouble();
      on += state.output() * dt;
      time += dt;
      state = Modulator.step(RELAY, state, duty, false, dt);
    }
    assertEquals(duty * time, on, RELAY.cycleS(), "seconds on");
  }

  @Test
  void aSteadyDutyHasThePeriodOfTheCycle() {
    Modulator.State state = Modulator.start(RELAY);
    int switchings = 0;
    for (int s = 0; s < 100 * 600; s++) {
      Modulator.State next = Modulator.step(RELAY, state, 0.4, false, 1);
      switchings += next.on() && !state.on() ? 1 : 0;
      state = next;
    }
    assertEquals(100, switchings, 2);
  }

  /**
   * S6: minimum on and off times and the rest hold under any duty; only an interlock cuts an on
   * time short.
   */
  @Test
  void minimumTimesHold() {
    OutputSettings settings = new OutputSettings(Drive.RELAY, 600, 60, 90, 1800, 300);
    Random random = new Random(11);
    Modulator.State state = Modulator.start(settings);
    double sinceS = 0;
    boolean heldThisTime = false;
    boolean rested = false;
    double duty = 0;
    for (int i = 0; i < 200_000; i++) {
      duty = random.nextInt(40) == 0 ? random.nextInt(3) / 2.0 * random.nextDouble() : duty;
      duty = random.nextInt(200) == 0 ? 1 : duty;
      boolean held = random.nextInt(500) == 0;
      double dt = 0.5 + 10 * random.nextDouble();
      Modulator.State next = Modulator.step(settings, state, duty, held, dt);
      sinceS += dt;
      heldThisTime |= held;
      if (next.on() != state.on()) {
        if (state.on()) {
          assertTrue(heldThisTime || sinceS >= 60, "on for " + sinceS + " s at step " + i);
          rested = sinceS >= 1800 && !held;
        } else {
          assertTrue(sinceS >= (rested ? 300 : 90), "off for " + sinceS + " s at step " + i);
        }
        sinceS = 0;
        heldThisTime = false;
      }
      assertTrue(!next.on() || sinceS <= 1800 + 11, "longest run");
      assertTrue(!held || !next.on(), "held is off at once");
      state = next;
    }
  }

  @Test
  void whatAnInterlockTakesIsNotMadeUpFor() {
    Modulator.State state = Modulator.start(RELAY);
    for (int i = 0; i < 86_400; i++) {
      state = Modulator.step(RELAY, state, 0.5, true, 1);
    }
    double on = 0;
    for (int i = 0; i < 3600; i++) {
      state = Modulator.step(RELAY, state, 0.5, false, 1);
      on += state.output();
    }
    assertEquals(1800, on, 150);
  }

  @Test
  void aProportionalOutputFollowsTheDuty() {
    OutputSettings settings = new OutputSettings(Drive.PROPORTIONAL, 600, 0, 0, 1e9, 0);
    Modulator.State state = Modulator.step(settings, Modulator.start(settings), 0.42, false, 1);
    assertEquals(0.42, state.output());
    assertEquals(0, Modulator.step(settings, state, 0.42, true, 1).output());
  }
}
