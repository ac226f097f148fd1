package limnostat.ledger;

import static java.nio.charset.StandardCharsets.US_ASCII;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.zip.CRC32C;
import limnostat.actuate.Output;

/**
 * A seal as a line of text: {@code limnostat-account 1 LEDGER MACHINE COMMITS CHECKSUM UNIX_MS
 * CHLORINE_G ACID_ML CRC32C}, with a dash for an absent value.
 *
 * @param writtenUnixMs wall clock when it was written, ms
 */
record SealLine(Seal seal, long writtenUnixMs) {
  private static final String HEAD = "limnostat-account 1";
  private static final String NONE = "-";
  private static final int FIELDS = 8 + Output.values().length;

  String text() {
    List<String> fields = new ArrayList<>();
    fields.add(HEAD);
    fields.add(seal.ledgerId());
    fields.add(seal.machine().isEmpty() ? NONE : seal.machine());
    fields.add(Long.toString(seal.commits()));
    fields.add(hex(seal.checksum()));
    fields.add(Long.toString(writtenUnixMs));
    for (Output output : Output.values()) {
      Double amount = seal.booked().get(output);
      fields.add(amount == null ? NONE : amount.toString());
    }
    String line = String.join(" ", fields);
    return line + " " + crc(line) + "\n";
  }

  /** Empty unless the text is one complete line of this form. */
  static Optional<SealLine> read(String text) {
    int end = text.lastIndexOf(' ');
    if (end < 0 || !text.substring(end).equals(" " + crc(text.substring(0, end)) + "\n")) {
      return Optional.empty();
    }
    String[] fields = text.split(" ", -1);
    if (fields.length != FIELDS || !text.startsWith(HEAD + " ")) {
      return Optional.empty(); // from an unknown version
    }
    Map<Output, Double> booked = new EnumMap<>(Output.class);
    int next = 7;
    for (Output output : Output.values()) {
      String amount = fields[next++];
      if (!amount.equals(NONE)) {
        booked.put(output, Double.valueOf(amount));
      }
    }
    String machine = fields[3].equals(NONE) ? "" : fields[3];
    long commits = Long.parseLong(fields[4]);
    int checksum = HexFormat.fromHexDigits(fields[5]);
    return Optional.of(
        new SealLine(
            new Seal(fields[2], machine, commits, booked, checksum), Long.parseLong(fields[6])));
  }

  private static String crc(String text) {
    CRC32C crc = new CRC32C();
    crc.update(text.getBytes(US_ASCII));
    return hex((int) crc.getValue());
  }

  private static String hex(int value) {
    return HexFormat.of().toHexDigits(value);
  }
}
