package limnostat.mqtt;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import limnostat.config.MqttSettings;
import limnostat.config.PasswordSource;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** The broker's files as shipped, with a real broker: who reaches what. */
@Timeout(60)
class AccessListIT {
  private static final String COMMAND = "limnostat/garden/command";

  @TempDir Path folder;
  private LocalBroker broker;

  @BeforeEach
  void start() throws Exception {
    Path passwords = Files.createFile(folder.resolve("passwords"));
    for (String user : List.of("garden", "spa", "owner", "dashboard")) {
      Tool.run("mosquitto_passwd", "-b", passwords.toString(), user, user + "-secret");
    }
    Path acl = folder.resolve("acl");
    Files.copy(Path.of("config", "mosquitto.acl"), acl, StandardCopyOption.REPLACE_EXISTING);
    Certificates.readableToTheBroker(folder);
    List<String> lines = new ArrayList<>();
    for (String line : Files.readAllLines(Path.of("config", "mosquitto.conf"))) {
      String word = line.split(" ", 2)[0];
      switch (word) {
        case "password_file" -> lines.add("password_file " + passwords);
        case "acl_file" -> lines.add("acl_file " + acl);
        case "allow_anonymous", "message_size_limit", "max_queued_messages" -> lines.add(line);
        case "listener", "certfile", "keyfile", "" -> {}
        default -> assertTrue(word.startsWith("#"), "not tried here: " + line);
      }
    }
    assertEquals(5, lines.size(), lines.toString());
    broker = LocalBroker.start(LocalBroker.freePort(), lines);
  }

  @AfterEach
  void stop() {
    broker.close();
  }

  private Link link(String site, String user, String password) {
    return link(site, user, Password.fixed(Optional.of(password.toCharArray())), Links.IMPATIENT);
  }

  private Link link(String site, String user, Password password, LinkTimes times) {
    Link link =
        new Link(
            new MqttSettings(
                true,
                "127.0.0.1",
                broker.port(),
                false,
                Optional.empty(),
                Optional.of(user),
                Optional.empty(),
                "limnostat"),
            site,
            password,
            Keeper.NONE,
            times);
    link.start();
    return link;
  }

  private Link garden() throws InterruptedException {
    Link link = link("garden", "garden", "garden-secret");
    Links.await("connected", () -> link.health().connected());
    return link;
  }

  private void send(String user, String topic, String text)
      throws IOException, InterruptedException {
    Tool.feed(text, client("mosquitto_pub", user, "-t", topic, "-s"));
  }

  private String[] client(String tool, String user, String... more) {
    List<String> command =
        new ArrayList<>(
            List.of(tool, "-h", "127.0.0.1", "-p", "" + broker.port(), "-q", "1", "-u", user));
    command.addAll(List.of("-P", user + "-secret"));
    command.addAll(List.of(more));
    return command.toArray(String[]::new);
  }

  /** The first that comes in, so that what was sent before it is known not to have come. */
  private static String next(Link link) throws InterruptedException {
    Inbound[] in = new Inbound[1];
    Links.await("a command", () -> (in[0] = link.pollCommand().orElse(null)) != null);
    return new String(((Inbound.Command) in[0]).payload(), StandardCharsets.UTF_8);
  }

  @Test
  void onlyTheOwnerSendsCommands() throws Exception {
    try (Link link = garden()) {
      send("dashboard", COMMAND, "by the dashboard");
      send("spa", COMMAND, "by another site");
      send("owner", "limnostat/spa/command", "to another site");
      send("owner", COMMAND, "by the owner");
      assertEquals("by the owner", next(link));
      assertEquals(Optional.empty(), link.pollCommand());
    }
  }

  @Test
  void theDashboardReadsWhatTheProgramSaysAndNobodySaysItInItsPlace() throws Exception {
    try (Link link = garden()) {
      for (String topic : List.of("state", "day", "health", "alarm/tank_low")) {
        link.retain(topic, Links.bytes("true " + topic));
      }
      Links.await("all acknowledged", () -> link.health().waiting() == 0);
      for (String topic : List.of("state", "day", "health", "alarm/tank_low")) {
        for (String liar : List.of("owner", "dashboard", "spa")) {
          Tool.feed(
              "false",
              client("mosquitto_pub", liar, "-t", "limnostat/garden/" + topic, "-s", "-r"));
        }
        assertEquals("true " + topic, read("dashboard", "limnostat/garden/" + topic));
        assertEquals("true " + topic, read("owner", "limnostat/garden/" + topic));
      }
    }
  }

  private String read(String user, String topic) throws IOException, InterruptedException {
    Process process =
        new ProcessBuilder(client("mosquitto_sub", user, "-t", topic, "-C", "1", "-W", "10"))
            .start();
    String text = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    process.waitFor();
    return text.strip();
  }

  @Test
  void aWrongPasswordIsNamedAndNeverShown() throws Exception {
    try (Link link = link("garden", "garden", "hunter-wrong")) {
      Links.await("a cause", () -> link.health().lastCause().isPresent());
      String cause = link.health().lastCause().orElseThrow();
      assertTrue(cause.contains("password (user garden)"), cause);
      assertFalse(cause.contains("hunter-wrong"), cause);
      assertFalse(link.health().connected());
    }
  }

  /** A person corrects the file, and nothing has to be started anew. */
  @Test
  void aCorrectedPasswordFileServesAtTheNextAttempt() throws Exception {
    Path file = folder.resolve("password");
    MqttSettings named =
        new MqttSettings(
            true,
            "127.0.0.1",
            broker.port(),
            false,
            Optional.empty(),
            Optional.of("garden"),
            Optional.of(file),
            "limnostat");
    PasswordSource source = new PasswordSource(named, Optional.empty());
    LinkTimes soon =
        new LinkTimes(
            Links.IMPATIENT.answer(),
            Links.IMPATIENT.keepAlive(),
            Links.IMPATIENT.acknowledgement(),
            Links.IMPATIENT.firstPause(),
            Links.IMPATIENT.longestPause(),
            Links.IMPATIENT.firstPause(),
            Links.IMPATIENT.settled());
    Files.writeString(file, "hunter-wrong\n");
    try (Link link = link("garden", "garden", () -> source.read().map(p -> p.characters()), soon)) {
      Links.await("a refusal", () -> cause(link).contains("password (user garden)"));
      Files.writeString(file, "");
      Links.await("an empty one", () -> cause(link).contains("the password is empty"));
      assertTrue(cause(link).contains(file.toString()), cause(link));
      Files.delete(file);
      Links.await("none", () -> cause(link).contains("the password cannot be read"));
      Files.writeString(file, "garden-secret\n");
      Links.await("connected", () -> link.health().connected());
    }
  }

  private static String cause(Link link) {
    return link.health().lastCause().orElse("");
  }

  /** With another site's user the program gets no commands, and what it says is dropped. */
  @Test
  void anotherSitesUserIsOfNoUse() throws Exception {
    try (Link own = garden();
        Link stranger = link("garden-2", "spa", "spa-secret")) {
      own.retain("state", Links.bytes("true"));
      Links.await("acknowledged", () -> own.health().waiting() == 0);
      Links.await("connected", () -> stranger.health().connected());
      send("owner", COMMAND, "for the garden");
      assertEquals("for the garden", next(own));
      assertEquals(Optional.empty(), stranger.pollCommand());
    }
  }

  @Test
  void aMegabyteIsTheBrokersAffairAndTheNextCommandComes() throws Exception {
    try (Link link = garden()) {
      try {
        send("owner", COMMAND, "x".repeat(1_000_000));
      } catch (IOException e) {
        // The broker throws the sender out.
        assertTrue(e.getMessage().contains("mosquitto_pub"), e.getMessage());
      }
      send("owner", COMMAND, "small");
      assertEquals("small", next(link));
      assertTrue(link.health().connected());
      assertEquals(1, link.health().attempts());
    }
  }
}
