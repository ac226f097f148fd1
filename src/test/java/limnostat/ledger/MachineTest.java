package limnostat.ledger;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class MachineTest {
  @TempDir Path folder;

  private String of(String content) throws Exception {
    return Machine.id(Files.writeString(folder.resolve("machine-id"), content));
  }

  @Test
  void oneIdStandsForOneMachineAndDoesNotShowIt() throws Exception {
    String id = "0123456789abcdef0123456789abcdef";
    String here = of(id + "\n");
    assertEquals(here, of(id));
    assertTrue(here.matches("[0-9a-f]{32}"), here);
    assertFalse(here.contains(id));
    assertNotEquals(here, of("0123456789abcdef0123456789abcdee\n"));
  }

  /** As machine-id(5) has it before the first boot is over, and in containers. */
  @Test
  void whatIsNoIdIsNone() throws Exception {
    for (String content : new String[] {"", "\n", "uninitialized\n", "0123", "x".repeat(32)}) {
      assertEquals("", of(content), content);
    }
    assertEquals("", Machine.id(folder.resolve("absent")));
  }
}
