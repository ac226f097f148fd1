package limnostat.safety;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import limnostat.actuate.Output;
import limnostat.actuate.Outputs;
import limnostat.safety.Interlocks.Permission;
import org.junit.jupiter.api.Test;

/** Effects only take away: rows combine to the most severe, in any order and number. */
class PrecedenceTest {
  private static final List<Cause> CAUSES = List.of(Cause.values());

  /** With three classes of effect an output's worst shows in any triple; larger sets are drawn. */
  @Test
  void everyTripleHasTheMostSevereEffect() {
    check(Set.of());
    for (Cause a : CAUSES) {
      for (Cause b : CAUSES) {
        for (Cause c : CAUSES) {
          check(new LinkedHashSet<>(List.of(a, b, c).stream().distinct().toList()));
        }
      }
    }
  }

  @Test
  void anySetInAnyOrderHasTheMostSevereEffect() {
    Random random = new Random(7);
    for (int i = 0; i < 20_000; i++) {
      List<Cause> drawn = new ArrayList<>(CAUSES);
      Collections.shuffle(drawn, random);
      Set<Cause> set = new LinkedHashSet<>(drawn.subList(0, random.nextInt(drawn.size() + 1)));
      check(set);
      Cause further = drawn.get(drawn.size() - 1);
      Set<Cause> more = new LinkedHashSet<>(set);
      more.add(further);
      double duty = random.nextDouble();
      double fallback = random.nextDouble();
      for (Output output : Output.values()) {
        assertTrue(
            permission(more).trim(output, duty, fallback)
                <= permission(set).trim(output, duty, fallback),
            () -> further + " raises " + output + " over " + set);
      }
    }
  }

  private static void check(Set<Cause> causes) {
    Permission permission = permission(causes);
    for (Output output : Output.values()) {
      boolean hold = causes.stream().anyMatch(c -> c.on(output) == Effect.INHIBIT);
      boolean limit = causes.stream().anyMatch(c -> c.on(output) == Effect.LIMIT);
      assertEquals(
          hold ? 0 : limit ? 0.3 : 0.8,
          permission.trim(output, 0.8, 0.3),
          () -> output + causes.toString());
      assertEquals(hold || limit ? 0 : 0.8, permission.trim(output, 0.8, 0), causes::toString);
      assertEquals(hold ? 0 : 0.2, permission.trim(output, 0.2, 0.3), causes::toString);
    }
    Outputs left = Interlocks.veto(permission, 0.6, 0.9, true);
    assertEquals(permission.held(Output.CHLORINE) ? 0 : 0.6, left.chlorine());
    assertEquals(
        permission.held(Output.ACID) || left.chlorine() > 0 ? 0 : 0.9, left.acid(), "never both");
    assertEquals(
        permission.held(Output.ACID) ? 0 : 0.9, Interlocks.veto(permission, 0, 0.9, true).acid());
  }

  private static Permission permission(Set<Cause> causes) {
    return new Permission(
        causes, Interlocks.effect(causes, Output.CHLORINE), Interlocks.effect(causes, Output.ACID));
  }
}
