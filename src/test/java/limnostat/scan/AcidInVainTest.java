package limnostat.scan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import limnostat.account.DoseCaps;
import limnostat.actuate.Output;
import limnostat.estimate.Tested;
import limnostat.estimate.WaterTest;
import limnostat.safety.Cause;
import limnostat.safety.Effect;
import limnostat.scan.Situation.Times;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/** An electrode that says 7.8 whatever is fed, in whole scans; caps are far off. */
@Tag("slow")
class AcidInVainTest {
  private final Situation s =
      Situation.acidFeeding(Times.USUAL, new DoseCaps(1500, 10_000, 10_000, 50));

  private boolean held() {
    return s.out.permission().active().contains(Cause.ACID_NO_RESPONSE);
  }

  private void tested(double ph) {
    s.commands.add(new Command.Test(WaterTest.EMPTY.with(Tested.PH, ph)));
  }

  private double fedMl() {
    return s.out.state().acid().account().given();
  }

  private void untilHeld() {
    for (int i = 0; i < 16 * 360 && !held(); i++) {
      s.scan(1);
    }
    assertTrue(held());
  }

  /**
   * 220 mL a turn are 0.044 eq/m³. Of alkalinity 100 stabiliser explains 10: at 7.8 the carbonate
   * holds 0.12 to 0.14 eq/m³ a unit of pH, stabiliser 0.05, so a turn is a fall of 0.23.
   */
  @Test
  void acidIsHeldAfterTwoTurnsAndGoesOnOnceATestAgrees() {
    untilHeld();
    double fed = fedMl();
    assertEquals(2 * 220, fed, 25);
    assertEquals(Effect.INHIBIT, s.out.permission().of(Output.ACID));
    assertEquals(Effect.NONE, s.out.permission().of(Output.CHLORINE));
    String told = s.out.details().of(Cause.ACID_NO_RESPONSE).orElseThrow();
    assertTrue(told.startsWith("pH moved by no more than 0.0"), told);
    assertTrue(told.contains("lowered it by 0.4"), told);

    s.scan(24 * 360);
    assertTrue(held(), "no time ends it");
    assertEquals(fed, fedMl(), 0);
    s.dies();
    s.scan(3);
    assertTrue(held(), "nor a restart");
    tested(7.1);
    s.scan(60);
    assertTrue(held(), "nor a test that contradicts");
    tested(7.7);
    s.scan(1);
    assertFalse(held());
    for (int i = 0; i < 3 * 360 && s.out.outputs().acid() == 0; i++) {
      s.scan(1);
    }
    assertTrue(s.out.outputs().acid() > 0, "acid is fed again");
  }

  @Test
  void aRiseIsToldAsOne() {
    for (int i = 0; i < 16 * 360 && !held(); i++) {
      s.ph(7.8 + 0.02 * i / 360);
      s.scan(1);
    }
    assertTrue(held());
    String told = s.out.details().of(Cause.ACID_NO_RESPONSE).orElseThrow();
    assertTrue(told.startsWith("pH rose by 0.1"), told);
  }

  /** The pool's pH falls as it should by what was fed: nothing is held. */
  @Test
  void aPoolThatAnswersIsLeftAlone() {
    double before = fedMl();
    double ph = 7.8;
    for (int i = 0; i < 48 * 360; i++) {
      double fed = fedMl() - before;
      before = fedMl();
      ph += 0.03 / 360 - Math.max(0, fed) * 0.23 / 220;
      s.ph(ph);
      s.scan(1);
      assertFalse(held(), () -> "scan: " + s.out.state().safety().watched().acid());
      assertFalse(s.out.measured().upkeep().phUnexplained());
    }
    assertTrue(ph > 7.3 && ph < 7.75, "pH " + ph);
  }
}
