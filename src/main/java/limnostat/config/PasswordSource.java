package limnostat.config;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermission;
import java.util.Optional;
import java.util.Set;

/** Where the broker's password comes from: a systemd credential, else the configured file. */
public final class PasswordSource {
  /** The maximum that MQTT 3.1.1 can carry (1.5.3, a two-byte length). */
  private static final int MOST_BYTES = 65535;

  private final Optional<Path> credential;
  private final Optional<Path> passwordFile;

  /**
   * @param settings names the file
   * @param credentialsDirectory value of {@code CREDENTIALS_DIRECTORY}, where it is set
   */
  public PasswordSource(MqttSettings settings, Optional<Path> credentialsDirectory) {
    this.credential =
        credentialsDirectory
            .map(folder -> folder.resolve("mqtt-password"))
            .filter(Files::isRegularFile);
    this.passwordFile = settings.passwordFile();
  }

  /** The password with its warning. It is not shown in logs or debugger views. */
  public static final class Password {
    private final String characters;
    private final Optional<String> warning;

    private Password(String characters, Optional<String> warning) {
      this.characters = characters;
      this.warning = warning;
    }

    public char[] characters() {
      return characters.toCharArray();
    }

    /** What a person should fix, for the log; empty if nothing. */
    public Optional<String> warning() {
      return warning;
    }

    @Override
    public String toString() {
      return "Password[hidden]";
    }
  }

  /**
   * Reads it again each time, so that a changed file takes effect at the next connection.
   *
   * @return empty if neither a credential nor a file is configured
   * @throws ConfigurationException if the file cannot be read, is empty, too long or not UTF-8
   */
  public Optional<Password> read() throws ConfigurationException {
    // systemd grants one user access to a credential through an access list. Its mask looks like
    // group rights, so there is no warning for it.
    if (credential.isPresent()) {
      return Optional.of(read(credential.get(), Optional.empty()));
    }
    if (passwordFile.isPresent()) {
      return Optional.of(read(passwordFile.get(), warning(passwordFile.get())));
    }
    return Optional.empty();
  }

  private static Password read(Path file, Optional<String> warning) throws ConfigurationException {
    Errors errors = new Errors(file);
    String text = "";
    try {
      if (Files.size(file) > MOST_BYTES) {
        refuse(errors, "the password is too long");
      } else {
        text = decode(Files.readAllBytes(file));
        if (text.isEmpty()) {
          refuse(errors, "the password is empty");
        }
      }
    } catch (CharacterCodingException e) {
      refuse(errors, "the password is not UTF-8");
    } catch (IOException e) {
      refuse(errors, "the password cannot be read: " + e.getClass().getSimpleName());
    }
    errors.throwIfAny();
    return new Password(text, warning);
  }

  private static void refuse(Errors errors, String what) {
    errors.add(
        Errors.START,
        Options.MQTT_PASSWORD_FILE.path(),
        what,
        "1 to " + MOST_BYTES + " bytes of UTF-8",
        "correct the file or its rights");
  }

  private static String decode(byte[] bytes) throws CharacterCodingException {
    String text = StandardCharsets.UTF_8.newDecoder().decode(ByteBuffer.wrap(bytes)).toString();
    return text.replaceFirst("\\r?\\n\\z", "");
  }

  /** There is no warning for a file system without such rights, nor for a missing file. */
  private static Optional<String> warning(Path file) {
    if (!FileSystems.getDefault().supportedFileAttributeViews().contains("posix")
        || !Files.exists(file)) {
      return Optional.empty();
    }
    try {
      Set<PosixFilePermission> rights = Files.getPosixFilePermissions(file);
      return rights.contains(PosixFilePermission.GROUP_READ)
              || rights.contains(PosixFilePermission.OTHERS_READ)
          ? Optional.of(file + ": others can read the password; run: chmod 600 " + file)
          : Optional.empty();
    } catch (IOException e) {
      return Optional.of(file + ": cannot see who may read the password: " + e.getMessage());
    }
  }
}
