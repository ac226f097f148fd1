package limnostat.daemon.service;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The shipped unit before systemd's own judges; without systemd these tests fail. */
@Tag("slow")
class SystemdUnitTest {
  private static final Path UNIT = Path.of("systemd/limnostat.service");
  private static final Path USERS = Path.of("systemd/limnostat.sysusers.conf");

  @TempDir private Path folder;

  private record Ended(int exit, String output) {}

  @Test
  void unitIsValid() throws Exception {
    Ended verify = verify(UNIT);
    assertEquals(0, verify.exit(), verify.output());
    // An unknown key is only told of; so may be the faults of other units on the machine.
    assertFalse(verify.output().contains("limnostat"), verify.output());
  }

  @Test
  void verificationWouldSeeAFault() throws Exception {
    Path broken = folder.resolve("limnostat.service");
    Files.writeString(broken, unit().replace("/usr/bin/java", "/usr/bin/no-such-program"));
    assertNotEquals(0, verify(broken).exit());
    Files.writeString(broken, unit().replace("WatchdogSec=", "WatchdogSecs="));
    assertTrue(verify(broken).output().contains("limnostat.service"));
  }

  private static Ended verify(Path unit) throws Exception {
    return run(
        "systemd-analyze", "verify", "--recursive-errors=no", unit.toAbsolutePath().toString());
  }

  @Test
  void exposureStaysLow() throws Exception {
    // 20 means 2.0 of 10; the unit scored 1.4, a bare one 9.6 (systemd 252)
    Ended security =
        run(
            "systemd-analyze",
            "security",
            "--offline=true",
            "--threshold=20",
            UNIT.toAbsolutePath().toString());
    assertEquals(0, security.exit(), security.output());
  }

  @Test
  void nothingIsSwitchedOnThatAJvmOrTheBusesDoNotBear() throws IOException {
    for (String line : unit().lines().toList()) {
      assertFalse(
          line.matches("(MemoryDenyWriteExecute|ProcSubset|PrivateDevices|PrivateUsers)=.*"), line);
    }
  }

  /** The program itself gives its first scan a minute; before it there is the JVM. */
  @Test
  void aSlowStartIsNotKilled() throws IOException {
    String seconds =
        unit()
            .lines()
            .filter(line -> line.startsWith("TimeoutStartSec="))
            .findFirst()
            .orElseThrow()
            .replace("TimeoutStartSec=", "");
    assertTrue(Integer.parseInt(seconds) >= 120, seconds);
  }

  @Test
  void jvmTakesTheFlags() throws Exception {
    String commandLine =
        unit()
            .replace("\\\n", " ")
            .lines()
            .filter(line -> line.startsWith("ExecStart="))
            .findFirst()
            .orElseThrow()
            .replace("%S", folder.toString());
    List<String> command =
        new ArrayList<>(List.of(commandLine.substring("ExecStart=".length()).trim().split("\\s+")));
    List<String> flags = command.subList(0, command.indexOf("-jar"));
    flags.set(0, Path.of(System.getProperty("java.home"), "bin", "java").toString());
    List<String> version = new ArrayList<>(flags);
    version.add("-version");
    Ended java = run(version.toArray(String[]::new));
    assertEquals(0, java.exit(), java.output());
    assertFalse(java.output().contains("warning"), java.output());
  }

  @Test
  void usersFileMakesTheUserAndGroupsOfTheUnit() throws Exception {
    Ended users =
        run(
            "systemd-sysusers",
            "--dry-run",
            "--root=" + folder,
            "--replace=/usr/lib/sysusers.d/limnostat.conf",
            USERS.toAbsolutePath().toString());
    assertEquals(0, users.exit(), users.output());
    assertTrue(unit().contains("\nUser=limnostat\n"));
    assertTrue(unit().contains("\nSupplementaryGroups=gpio i2c spi\n"));
    for (String name : List.of("user 'limnostat'", "group 'gpio'", "group 'i2c'", "group 'spi'")) {
      assertTrue(users.output().contains(name), name + " is missing in " + users.output());
    }
  }

  private static String unit() throws IOException {
    return Files.readString(UNIT);
  }

  private static Ended run(String... command) throws IOException, InterruptedException {
    Process process = new ProcessBuilder(command).redirectErrorStream(true).start();
    String output = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertTrue(process.waitFor(60, TimeUnit.SECONDS), "no end of " + List.of(command));
    return new Ended(process.exitValue(), output);
  }
}
