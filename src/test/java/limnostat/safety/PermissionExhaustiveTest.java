package limnostat.safety;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import limnostat.actuate.Output;
import limnostat.actuate.Outputs;
import limnostat.safety.Interlocks.Permission;
import org.junit.jupiter.api.Test;

/**
 * The logic of permission over all subsets of the matrix. 2^n of them cannot be run through, but
 * they need not: by its two effects every row is one of a few classes, so what is shown is
 *
 * <ol>
 *   <li>for all subsets of classes (all of them), whatever row stands for its class: the effect is
 *       that of the classes;
 *   <li>for all pairs of rows: a second row of a class already there changes nothing;
 *   <li>for all subsets of classes and every row: one row more gives the maximum of both effects.
 * </ol>
 *
 * By induction over the rows of a subset, in any order, its effect is the maximum of its rows'.
 */
class PermissionExhaustiveTest {
  private static final double[] DUTIES = {0, 1e-9, 0.3, 0.8, 1};

  private record Kind(Effect chlorine, Effect acid) {}

  private static final Map<Kind, List<Cause>> KINDS = kinds();

  private static Map<Kind, List<Cause>> kinds() {
    Map<Kind, List<Cause>> kinds = new LinkedHashMap<>();
    for (Cause cause : Cause.values()) {
      kinds
          .computeIfAbsent(
              new Kind(cause.on(Output.CHLORINE), cause.on(Output.ACID)), k -> new ArrayList<>())
          .add(cause);
    }
    return kinds;
  }

  @Test
  void everySubsetOfClassesHasTheMostSevereEffectWhateverRowStandsForIt() {
    List<Kind> kinds = List.copyOf(KINDS.keySet());
    int longest = KINDS.values().stream().mapToInt(List::size).max().orElseThrow();
    for (int subset = 0; subset < 1 << kinds.size(); subset++) {
      for (int turn = 0; turn < longest; turn++) {
        Set<Cause> causes = EnumSet.noneOf(Cause.class);
        Effect chlorine = Effect.NONE;
        Effect acid = Effect.NONE;
        for (int k = 0; k < kinds.size(); k++) {
          if ((subset >> k & 1) == 1) {
            List<Cause> rows = KINDS.get(kinds.get(k));
            causes.add(rows.get(turn % rows.size()));
            chlorine = worse(chlorine, kinds.get(k).chlorine);
            acid = worse(acid, kinds.get(k).acid);
          }
        }
        check(causes, chlorine, acid);
        for (Cause further : Cause.values()) {
          Set<Cause> more = EnumSet.of(further);
          more.addAll(causes);
          assertEquals(
              worse(chlorine, further.on(Output.CHLORINE)),
              Interlocks.effect(more, Output.CHLORINE));
          assertEquals(worse(acid, further.on(Output.ACID)), Interlocks.effect(more, Output.ACID));
        }
      }
    }
    assertTrue(kinds.size() <= 9, "three effects on two outputs");
  }

  @Test
  void everyPairHasTheMaximumInBothOrders() {
    for (Cause a : Cause.values()) {
      for (Cause b : Cause.values()) {
        for (Output output : Output.values()) {
          Effect most = worse(a.on(output), b.on(output));
          assertEquals(most, Interlocks.effect(EnumSet.of(a, b), output), () -> a + ", " + b);
          if (a != b) {
            assertEquals(most, Interlocks.effect(Set.of(b, a), output), () -> b + ", " + a);
          }
        }
      }
    }
  }

  /**
   * Every permission there can be, with all duties of the grid, against the words of the design.
   */
  private static void check(Set<Cause> causes, Effect chlorine, Effect acid) {
    Permission permission =
        new Permission(
            causes,
            Interlocks.effect(causes, Output.CHLORINE),
            Interlocks.effect(causes, Output.ACID));
    assertEquals(chlorine, permission.chlorine(), causes::toString);
    assertEquals(acid, permission.acid(), causes::toString);
    for (double duty : DUTIES) {
      for (double other : DUTIES) {
        for (Output output : Output.values()) {
          double left = permission.trim(output, duty, other);
          double most =
              switch (output == Output.CHLORINE ? chlorine : acid) {
                case NONE -> duty;
                case LIMIT -> duty < other ? duty : other;
                case INHIBIT -> 0;
              };
          assertEquals(most, left, causes::toString);
        }
        Outputs out = Interlocks.veto(permission, duty, other, true);
        assertEquals(chlorine == Effect.INHIBIT ? 0 : duty, out.chlorine(), causes::toString);
        assertEquals(
            acid == Effect.INHIBIT || out.chlorine() > 0 ? 0 : other, out.acid(), causes::toString);
        assertTrue(out.pumpRequest());
      }
    }
  }

  private static Effect worse(Effect a, Effect b) {
    return a.compareTo(b) > 0 ? a : b;
  }
}
