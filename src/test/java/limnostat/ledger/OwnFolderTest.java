package limnostat.ledger;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Optional;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class OwnFolderTest {
  @TempDir Path above;
  private Path folder;

  @BeforeEach
  void name() {
    folder = above.resolve("own");
  }

  private static void mode(Path path, String mode) throws IOException {
    Files.setPosixFilePermissions(path, PosixFilePermissions.fromString(mode));
  }

  private String refusal() {
    String text = assertThrows(IOException.class, () -> OwnFolder.prepare(folder)).getMessage();
    assertTrue(text.contains(folder.toString()), text);
    return text;
  }

  @Test
  void anAbsentOneIsMadeForNobodyElseAndTakenAgain() throws IOException {
    OwnFolder.prepare(folder);
    assertEquals("rwx------", PosixFilePermissions.toString(Files.getPosixFilePermissions(folder)));
    OwnFolder.prepare(folder);
  }

  @Test
  void whoMayReadMayNotDecideAnything() throws IOException {
    Files.createDirectory(folder);
    mode(folder, "rwxr-xr-x");
    OwnFolder.prepare(folder);
  }

  @Test
  void oneThatOthersMayWriteIsRefused() throws IOException {
    Files.createDirectory(folder);
    mode(folder, "rwxrwx---");
    assertTrue(refusal().contains("chmod 700"));
    mode(folder, "rwx----w-");
    assertTrue(refusal().contains("mode 702"));
  }

  @Test
  void oneOfSomebodyElseIsRefused() throws IOException {
    Files.createDirectory(folder);
    int own = OwnFolder.ownUser();
    assertEquals(Optional.empty(), OwnFolder.fault(folder, own));
    String text = OwnFolder.fault(folder, own + 1).orElseThrow();
    assertTrue(text.contains("belongs to user " + own + " and not to user " + (own + 1)), text);
    assertTrue(text.contains("remove it"), text);
  }

  @Test
  void aLinkOrAFileIsRefused() throws IOException {
    Files.createSymbolicLink(folder, Files.createDirectory(above.resolve("elsewhere")));
    assertTrue(refusal().contains("a link"));
    Files.delete(folder);
    Files.createFile(folder);
    assertTrue(refusal().contains("no folder"));
  }

  /** Else it can be moved away and another put in its place. */
  @Test
  void theFolderAboveCountsUnlessItIsSticky() throws IOException {
    OwnFolder.prepare(folder);
    mode(above, "rwxrwxrwx");
    assertTrue(refusal().contains("chmod o-w " + above));
    Files.setAttribute(above, "unix:mode", (int) Files.getAttribute(above, "unix:mode") | 01000);
    OwnFolder.prepare(folder);
    mode(above, "rwx------");
  }
}
