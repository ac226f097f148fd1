package limnostat.config;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class NearestTest {
  @Test
  void countsEdits() {
    // The textbook pair: kitten, sitting.
    assertEquals(3, Nearest.distance("kitten", "sitting"));
    assertEquals(0, Nearest.distance("Volume", "volume"));
    assertEquals(6, Nearest.distance("", "volume"));
  }

  @Test
  void findsSlipsOnly() {
    List<String> known = List.of("volume", "salt", "free_chlorine");
    assertEquals(Optional.of("volume"), Nearest.to("vloume", known));
    assertEquals(Optional.of("free_chlorine"), Nearest.to("freechlorine", known));
    assertEquals(Optional.empty(), Nearest.to("colour", known));
    assertEquals(Optional.empty(), Nearest.to("x", List.of()));
  }
}
