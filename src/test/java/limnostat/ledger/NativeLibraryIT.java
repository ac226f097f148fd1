package limnostat.ledger;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Where the native library goes; in processes of their own, since one loads it once. */
class NativeLibraryIT {
  @TempDir Path folder;

  private static String output(Process child) throws Exception {
    String text = new String(child.getInputStream().readAllBytes(), UTF_8);
    child.waitFor();
    return text;
  }

  @Test
  void unpacksBesideTheLedgerAndSparesTheLiving() throws Exception {
    Path file = folder.resolve("ledger.db");
    Path natives = folder.resolve("ledger.db.native");
    Path living = natives.resolve(Long.toString(ProcessHandle.current().pid()));
    Process ended = new ProcessBuilder("true").start();
    ended.waitFor();
    Path dead = natives.resolve(Long.toString(ended.pid()));
    for (Path left : List.of(living, dead)) {
      Files.createDirectories(left);
      Files.writeString(left.resolve("sqlite-libsqlitejdbc.so"), "left");
    }
    Files.setPosixFilePermissions(natives, PosixFilePermissions.fromString("rwx------"));

    String text = output(ChildJvm.start(OpeningChild.class.getName(), file.toString()));

    assertTrue(text.contains("opened, fresh true"), text);
    assertTrue(Files.exists(living.resolve("sqlite-libsqlitejdbc.so")));
    assertFalse(Files.exists(dead));
  }

  /** Else whoever may write there has his own library loaded. */
  @Test
  void aFolderThatOthersMayWriteIsRefusedWithTheMend() throws Exception {
    Path natives = Files.createDirectory(folder.resolve("ledger.db.native"));
    Files.setPosixFilePermissions(natives, PosixFilePermissions.fromString("rwxrwxrwx"));
    String text =
        output(
            ChildJvm.start(OpeningChild.class.getName(), folder.resolve("ledger.db").toString()));
    assertTrue(text.contains("refused: "), text);
    assertTrue(text.contains(natives + " may be written by others"), text);
    assertTrue(text.contains("chmod 700"), text);
  }

  @Test
  void oddEntriesAreInNobodysWay() throws Exception {
    Path natives = folder.resolve("ledger.db.native");
    Path dead = natives.resolve("999999999");
    Files.createDirectories(dead.resolve("folder").resolve("within"));
    Files.createDirectories(natives.resolve("1x"));
    Files.createFile(natives.resolve("99999999999999999999999"));
    Files.setPosixFilePermissions(natives, PosixFilePermissions.fromString("rwx------"));
    String text =
        output(
            ChildJvm.start(OpeningChild.class.getName(), folder.resolve("ledger.db").toString()));
    assertTrue(text.contains("opened, fresh true"), text);
  }

  @Test
  void aMountWithoutExecIsNamedWithTheMend() throws Exception {
    String text =
        output(
            ChildJvm.startWithMount(
                folder,
                "size=8m,noexec",
                OpeningChild.class.getName(),
                folder.resolve("ledger.db").toString()));
    assertTrue(text.contains("refused: "), text);
    assertTrue(text.contains("noexec") && text.contains("-Dorg.sqlite.lib.path="), text);
    assertTrue(text.contains(folder.resolve("ledger.db.native").toString()), text);
  }

  @Test
  void aShippedLibraryIsUsedAndNothingUnpacked() throws Exception {
    Path shipped = Files.createDirectory(folder.resolve("lib"));
    String resource =
        org.sqlite.util.LibraryLoaderUtil.getNativeLibResourcePath() + "/libsqlitejdbc.so";
    try (var in = org.sqlite.SQLiteJDBCLoader.class.getResourceAsStream(resource)) {
      Files.copy(in, shipped.resolve("libsqlitejdbc.so"));
    }
    String text =
        output(
            ChildJvm.start(
                "-Dorg.sqlite.lib.path=" + shipped,
                "-Dorg.sqlite.lib.name=libsqlitejdbc.so",
                "-Djava.io.tmpdir=" + folder.resolve("absent"),
                OpeningChild.class.getName(),
                folder.resolve("ledger.db").toString()));
    assertTrue(text.contains("opened, fresh true"), text);
    assertEquals(false, Files.exists(folder.resolve("ledger.db.native")));
  }
}
