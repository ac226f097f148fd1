package limnostat.ledger;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;

/**
 * Identifies this machine. Times in a ledger from another machine mean nothing here. The id is that
 * of machine-id(5), which asks programs to hash it, since the id itself must not leave the machine.
 */
final class Machine {
  private static final Path ID = Path.of("/etc/machine-id");

  /**
   * 32 hexadecimal digits by machine-id(5). During the first boot the file may contain something
   * else.
   */
  private static final String FORM = "[0-9a-f]{32}";

  private static final int SHOWN_BYTES = 16;

  private Machine() {}

  /** Hexadecimal digits; empty where the machine has no id. */
  static String id() {
    return id(ID);
  }

  static String id(Path file) {
    try {
      String id = Files.readString(file, StandardCharsets.US_ASCII).strip();
      return id.matches(FORM) ? hashed(id) : "";
    } catch (IOException e) {
      return ""; // a container may have none; then no outage across a boot can be proved
    }
  }

  private static String hashed(String id) {
    try {
      MessageDigest digest = MessageDigest.getInstance("SHA-256");
      byte[] hash = digest.digest(("limnostat ledger " + id).getBytes(StandardCharsets.US_ASCII));
      return HexFormat.of().formatHex(hash, 0, SHOWN_BYTES);
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java has SHA-256", e);
    }
  }
}
