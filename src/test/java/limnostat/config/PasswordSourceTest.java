package limnostat.config;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class PasswordSourceTest {
  @TempDir Path folder;

  private Path file(String name, String content, String rights) throws IOException {
    Path file = folder.resolve(name);
    Files.write(file, content.getBytes(StandardCharsets.ISO_8859_1));
    Files.setPosixFilePermissions(file, PosixFilePermissions.fromString(rights));
    return file;
  }

  private static PasswordSource source(Optional<Path> file, Optional<Path> credentials) {
    return new PasswordSource(
        new MqttSettings(
            true, "localhost", 1883, false, Optional.empty(), Optional.of("u"), file, "limnostat"),
        credentials);
  }

  private static String read(PasswordSource source) throws ConfigurationException {
    return new String(source.read().orElseThrow().characters());
  }

  @Test
  void theCredentialGoesBeforeTheFile() throws Exception {
    Path file = file("pw", "from file\n", "rw-------");
    file("mqtt-password", "from systemd\n", "r--r-----");
    PasswordSource both = source(Optional.of(file), Optional.of(folder));
    assertEquals("from systemd", read(both));
    assertEquals(Optional.empty(), both.read().orElseThrow().warning());
    assertEquals("from file", read(source(Optional.of(file), Optional.empty())));
    assertEquals(
        "from file",
        read(source(Optional.of(file), Optional.of(folder.resolve("empty")))),
        "a credentials folder without ours");
  }

  @Test
  void nothingNamedIsNoPassword() throws Exception {
    assertTrue(source(Optional.empty(), Optional.empty()).read().isEmpty());
  }

  @Test
  void stripsOneNewlineOnly() throws Exception {
    Path file = file("pw", " a b \n\n", "rw-------");
    assertEquals(" a b \n", read(source(Optional.of(file), Optional.empty())));
    Path windows = file("pw2", "ab\r\n", "rw-------");
    assertEquals("ab", read(source(Optional.of(windows), Optional.empty())));
  }

  @Test
  void warnsOfAFileThatOthersCanRead() throws Exception {
    for (String rights : new String[] {"rw-r-----", "rw----r--"}) {
      Path file = file("pw", "hunter", rights);
      PasswordSource.Password password =
          source(Optional.of(file), Optional.empty()).read().orElseThrow();
      assertTrue(password.warning().orElseThrow().contains("chmod 600 " + file), rights);
    }
    Path file = file("pw", "hunter", "rw-------");
    assertTrue(
        source(Optional.of(file), Optional.empty()).read().orElseThrow().warning().isEmpty());
  }

  @Test
  void neverShowsThePassword() throws Exception {
    Path file = file("pw", "hunter\n", "rw-------");
    PasswordSource source = source(Optional.of(file), Optional.empty());
    assertFalse(source.read().orElseThrow().toString().contains("hunter"));
  }

  @Test
  void namesTheFileThatCannotBeUsed() throws Exception {
    Path missing = folder.resolve("none");
    assertFault(missing, "NoSuchFileException");
    assertFault(file("empty", "\n", "rw-------"), "empty");
    assertFault(file("latin1", "gr\u00fcn", "rw-------"), "not UTF-8");
    assertFault(file("long", "x".repeat(70000), "rw-------"), "too long");
    assertFault(folder, "IOException");
  }

  private static void assertFault(Path file, String what) {
    PasswordSource source = source(Optional.of(file), Optional.empty());
    ConfigurationException e = assertThrows(ConfigurationException.class, source::read);
    assertTrue(e.getMessage().startsWith(file + ":1:1: mqtt.password_file: "), e.getMessage());
    assertTrue(e.getMessage().contains(what), e.getMessage());
  }
}
