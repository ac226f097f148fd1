package limnostat.scan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/** A failing history of a program without its latch, made as small as it gets. */
@Tag("slow")
class ShrinkTest {
  private static final Step UNLATCHED =
      Mutant.elsewhere().stream()
          .filter(mutant -> mutant.name().equals("latch"))
          .findFirst()
          .orElseThrow()
          .step()
          .get();

  private static Optional<Proof.Failure> run(Proof.Failure failure, Set<Chance.Event> only) {
    return Proof.run(failure.seed(), Optional.of(only), UNLATCHED, seen -> {}, failure.scan() + 1);
  }

  @Test
  void whatIsLeftFailsAlikeAndNeedsEveryEvent() {
    Proof.Failure whole =
        LongStream.rangeClosed(1, 50)
            .mapToObj(seed -> Proof.run(seed, Optional.empty(), UNLATCHED, seen -> {}))
            .flatMap(Optional::stream)
            .filter(failure -> failure.events().size() > 20 && failure.events().size() < 60)
            .findFirst()
            .orElseThrow();
    Proof.Failure least = Shrink.smallest(whole, UNLATCHED);
    assertEquals(whole.rule(), least.rule());
    assertTrue(least.scan() <= whole.scan());
    List<Chance.Event> events = least.events();
    assertTrue(events.size() < 10, () -> Shrink.describe(least));
    assertEquals(least.message(), run(least, new LinkedHashSet<>(events)).orElseThrow().message());
    for (Chance.Event event : events) {
      Set<Chance.Event> rest = new LinkedHashSet<>(events);
      rest.remove(event);
      assertTrue(
          run(least, rest).filter(f -> f.rule().equals(least.rule())).isEmpty(),
          () -> "fails without " + event + " too");
    }
    assertEquals(events, Shrink.smallest(whole, UNLATCHED).events(), "the same again");
    String text = Shrink.describe(least);
    assertTrue(text.contains("-Dlimnostat.seed=" + whole.seed()), text);
    events.forEach(event -> assertTrue(text.contains(event.toString()), text));
  }

  /** A smaller history is the same one with less in it, and not another. */
  @Test
  void withAllOfItsEventsAHistoryIsItself() throws IOException {
    History whole = new History(7);
    for (int i = 0; i < 500; i++) {
      whole.next();
    }
    History again = new History(7, Optional.of(new LinkedHashSet<>(whole.events())), Scan::step);
    ScanOutcome last = null;
    for (int i = 0; i < 500; i++) {
      last = again.next().out();
    }
    assertEquals(whole.events(), again.events());
    History third = new History(7);
    for (int i = 0; i < 499; i++) {
      third.next();
    }
    assertEquals(third.next().out(), last);
  }
}
