package limnostat.mqtt;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.time.Duration;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

class BackOffTest {
  private static BackOff with(double random) {
    return new BackOff(LinkTimes.DEFAULT, () -> random);
  }

  private static List<Long> seconds(BackOff backOff, int n) {
    return Stream.generate(() -> backOff.pause(true).toSeconds()).limit(n).toList();
  }

  @Test
  void doublesToAMinute() {
    BackOff backOff = with(0.5);
    assertEquals(List.of(1L, 2L, 4L, 8L, 16L, 32L, 60L, 60L), seconds(backOff, 8));
    backOff.reset();
    assertEquals(List.of(1L, 2L), seconds(backOff, 2));
  }

  @Test
  void jitterIsAFifthEitherWay() {
    assertEquals(Duration.ofMillis(800), with(0).pause(true));
    assertEquals(Duration.ofMillis(1200), with(1).pause(true));
  }

  @Test
  void whatDoesNotMendItselfWaitsMinutes() {
    BackOff backOff = with(0.5);
    assertEquals(Duration.ofMinutes(5), backOff.pause(false));
    assertEquals(List.of(1L), seconds(backOff, 1));
  }
}
