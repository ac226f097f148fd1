package limnostat.ledger;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A file system that is really full, beside the page limit of {@link LedgerFailureTest}. */
class FullDiskIT {
  @TempDir Path folder;

  @Test
  void bookingsWaitUntilThereIsRoom() throws Exception {
    Process child =
        ChildJvm.startWithMount(
            folder,
            "size=1m",
            "-Dorg.sqlite.tmpdir=" + System.getProperty("java.io.tmpdir"),
            FullDiskChild.class.getName(),
            folder.toString());
    String text = new String(child.getInputStream().readAllBytes(), UTF_8);
    assertEquals(0, child.waitFor(), text);
    assertTrue(text.contains("make room"), text);
    assertTrue(text.contains("while full 0.0"), text);
    assertTrue(text.contains("failing false"), text);
    assertTrue(text.contains("[acid 30.0, chlorine 5.0]"), text);
    assertTrue(text.contains("integrity [ok]"), text);
  }
}
