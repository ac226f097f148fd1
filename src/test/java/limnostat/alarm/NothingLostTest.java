package limnostat.alarm;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import limnostat.safety.Cause;
import limnostat.safety.Priority;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Random histories: what a person never got to see is nowhere. */
class NothingLostTest {
  private static final double STEP_S = 10;
  private static final List<Cause> CAUSES = List.of(Cause.values());

  private Map<Cause, Alarms.Entry> entries = Map.of();
  private Annunciator annunciator = Annunciator.QUIET;
  private final EnumSet<Cause> active = EnumSet.noneOf(Cause.class);
  private double nowS = 1e9;

  private List<Alarms.Transition> step() {
    nowS += STEP_S;
    Alarms.Result result =
        Alarms.step(
            entries,
            annunciator,
            new Alarms.Seen(
                EnumSet.copyOf(active),
                EnumSet.copyOf(active),
                Set.of(),
                STEP_S,
                STEP_S,
                nowS,
                true));
    entries = result.entries();
    annunciator = result.annunciator();
    return result.transitions();
  }

  private AlarmState state(Cause cause) {
    return entries.containsKey(cause) ? entries.get(cause).state() : AlarmState.NORMAL;
  }

  /**
   * A cause that counts for longer than its delay is shown, or silenced by a state that says so;
   * and what is shown as normal has nothing left. After every shelf has ended and nothing
   * suppresses any more, whatever still counts is shown to a person.
   */
  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8})
  void everyActivationIsShownOrSilencedAndThenShown(long seed) {
    Random random = new Random(seed);
    Map<Cause, Double> forS = new EnumMap<>(Cause.class);
    for (int i = 0; i < 4000; i++) {
      Cause any = CAUSES.get(random.nextInt(CAUSES.size()));
      if (random.nextInt(3) == 0 && !any.latching()) {
        if (!active.remove(any)) {
          active.add(any);
        }
      }
      command(random);
      step();
      for (Cause cause : Cause.values()) {
        boolean counts = active.contains(cause);
        forS.merge(cause, counts ? STEP_S : -1e9, (a, b) -> b < 0 ? 0 : Math.max(0, a) + b);
        boolean due = counts && forS.get(cause) >= 2 * cause.annunciation().onDelayS() + 120;
        if (due && cause.priority() != Priority.NONE) {
          assertTrue(
              state(cause) != AlarmState.NORMAL
                  && state(cause) != AlarmState.RETURNED_UNACKNOWLEDGED,
              "seed " + seed + " step " + i + ": " + cause + " is " + state(cause));
        }
        if (cause.priority() == Priority.CRITICAL) {
          assertFalse(
              state(cause) == AlarmState.SHELVED || state(cause) == AlarmState.SUPPRESSED,
              "seed " + seed + " step " + i + ": " + cause);
        }
      }
    }
    active.removeIf(c -> Suppression.TABLE.stream().anyMatch(row -> row.cause() == c));
    for (double s = 0; s < 7200; s += STEP_S) {
      step();
    }
    for (Cause cause : active) {
      if (cause.priority() != Priority.NONE) {
        AlarmState state = state(cause);
        assertTrue(
            state == AlarmState.UNACKNOWLEDGED || state == AlarmState.ACKNOWLEDGED,
            "seed " + seed + ": " + cause + " is " + state);
      }
    }
    assertTrue(entries.values().stream().noneMatch(Alarms.Entry::heldBack), "held back for ever");
  }

  private void command(Random random) {
    Cause cause = CAUSES.get(random.nextInt(CAUSES.size()));
    switch (random.nextInt(12)) {
      case 0 -> {
        if (Alarms.acknowledgeable(entries, cause)) {
          entries = Alarms.acknowledge(entries, annunciator, cause).entries();
        }
      }
      case 1 -> {
        if (cause.priority() != Priority.NONE && cause.priority() != Priority.CRITICAL) {
          entries =
              Alarms.shelve(
                      entries,
                      annunciator,
                      cause,
                      60 + random.nextInt(3600),
                      nowS,
                      random.nextBoolean())
                  .entries();
        }
      }
      case 2 -> {
        if (state(cause) == AlarmState.SHELVED) {
          entries = Alarms.unshelve(entries, annunciator, cause).entries();
        }
      }
      default -> {}
    }
  }

  /** What began and ended behind a shelf is shown once, when the shelf ends. */
  @Test
  void whatCameAndWentBehindAShelfIsShownAfterIt() {
    Cause cause = Cause.TANK_LOW;
    entries = Alarms.shelve(entries, annunciator, cause, 3600, nowS, true).entries();
    active.add(cause);
    run(600);
    active.remove(cause);
    run(600);
    assertEquals(AlarmState.SHELVED, state(cause));
    run(2400);
    assertEquals(AlarmState.RETURNED_UNACKNOWLEDGED, state(cause));
  }

  /** EEMUA 191 and ISA-18.2, from memory: above 10 in 10 minutes it is a flood. */
  @Test
  void inAFloodTheLowOnesWaitAndComeAfterIt() {
    List<Cause> high = new ArrayList<>();
    List<Cause> low = new ArrayList<>();
    for (Cause cause : Cause.values()) {
      boolean quiet =
          cause.priority() == Priority.NONE
              || cause.latching()
              || cause == Cause.CLOCK_NOT_TRUSTED // at once, so before the flood
              || Suppression.TABLE.stream().anyMatch(r -> r.cause() == cause);
      if (!quiet && !Suppression.TABLE.stream().anyMatch(r -> r.alarms().contains(cause))) {
        (cause.priority() == Priority.LOW ? low : high).add(cause);
      }
    }
    high.addAll(List.of(Cause.ORP_FAILURE, Cause.PH_FAILURE));
    assertTrue(high.size() > 10 && low.size() >= 3, high + " " + low);
    active.addAll(high.subList(0, 10));
    run(600);
    assertFalse(annunciator.flood().on(), "ten are none");
    run(600);
    active.addAll(high);
    active.addAll(low.subList(0, 1));
    for (Cause cause : List.copyOf(active)) {
      if (Alarms.acknowledgeable(entries, cause)) {
        entries = Alarms.acknowledge(entries, annunciator, cause).entries();
      }
    }
    active.removeAll(high.subList(0, 10));
    run(300);
    active.addAll(high);
    active.addAll(low);
    List<Alarms.Transition> told = run(90);
    assertTrue(annunciator.flood().on());
    for (Cause cause : low.subList(1, low.size())) {
      assertTrue(entries.get(cause).heldBack(), cause.id());
      assertTrue(
          told.contains(
              new Alarms.Transition(cause, AlarmState.NORMAL, AlarmState.UNACKNOWLEDGED, true)),
          "in the journal all the same: " + told);
    }
    assertTrue(
        told.stream().noneMatch(t -> t.heldBack() && t.alarm().priority() != Priority.LOW),
        "what matters is not held back");
    run(700);
    assertFalse(annunciator.flood().on());
    for (Cause cause : low) {
      assertFalse(entries.get(cause).heldBack(), "told as it is now");
    }
  }

  private List<Alarms.Transition> run(double seconds) {
    List<Alarms.Transition> transitions = new ArrayList<>();
    for (double s = 0; s < seconds; s += STEP_S) {
      transitions.addAll(step());
    }
    return transitions;
  }

  /** The first is marked until all of its output are back to normal. */
  @Test
  void theFirstOutIsKeptUntilAllAreNormal() {
    active.add(Cause.TANK_LOW);
    step();
    active.add(Cause.ORP_HIGH);
    run(120);
    assertEquals(Set.of(Cause.TANK_LOW), annunciator.firstOut().chlorine());
    assertEquals(Set.of(), annunciator.firstOut().acid());
    active.remove(Cause.TANK_LOW);
    run(600);
    assertEquals(Set.of(Cause.TANK_LOW), annunciator.firstOut().chlorine(), "the other stands");
    active.clear();
    run(600);
    assertEquals(Set.of(Cause.TANK_LOW), annunciator.firstOut().chlorine(), "nobody has seen it");
    for (Cause cause : List.of(Cause.TANK_LOW, Cause.ORP_HIGH)) {
      entries = Alarms.acknowledge(entries, annunciator, cause).entries();
    }
    step();
    assertEquals(Annunciator.QUIET.firstOut(), annunciator.firstOut());
    active.addAll(List.of(Cause.PH_LOW, Cause.WATER_HOT));
    step();
    assertEquals(active, annunciator.firstOut().chlorine(), "of one scan both");
    assertEquals(active, annunciator.firstOut().acid());
  }

  /** A consequence is not the first. */
  @Test
  void whatIsSuppressedIsNotFirst() {
    active.addAll(List.of(Cause.NO_FLOW, Cause.ORP_FAILURE));
    run(600);
    assertEquals(AlarmState.SUPPRESSED, state(Cause.ORP_FAILURE));
    assertEquals(Set.of(), annunciator.firstOut().chlorine());
  }
}
