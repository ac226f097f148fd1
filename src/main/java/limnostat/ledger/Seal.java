package limnostat.ledger;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.Optional;
import java.util.zip.CRC32C;
import limnostat.actuate.Output;

/**
 * The ledger's account after a commit that changed it. The ledger stores the seal, and the record
 * beside it ({@link AccountRecord}) stores it again. So each shows if the other has lost something.
 *
 * @param ledgerId random id, drawn when the file was made
 * @param machine of {@link Machine#id}
 * @param commits number of such commits so far, from 1
 * @param booked cumulative amount booked of each output that has one, g of chlorine or mL of acid
 * @param checksum CRC-32C of all these fields and of the saved state
 */
record Seal(
    String ledgerId, String machine, long commits, Map<Output, Double> booked, int checksum) {
  Seal {
    booked = Map.copyOf(booked);
  }

  static Seal of(
      String ledgerId,
      String machine,
      long commits,
      Map<Output, Double> booked,
      Optional<Restored.SavedState> state) {
    return new Seal(
        ledgerId, machine, commits, booked, checksum(ledgerId, machine, commits, booked, state));
  }

  private static int checksum(
      String ledgerId,
      String machine,
      long commits,
      Map<Output, Double> booked,
      Optional<Restored.SavedState> state) {
    CRC32C crc = new CRC32C();
    StringBuilder text = new StringBuilder();
    text.append(ledgerId).append('\n').append(machine).append('\n').append(commits).append('\n');
    for (Output output : Output.values()) {
      text.append(output.key()).append(' ').append(booked.get(output)).append('\n');
    }
    state.ifPresent(
        s ->
            text.append(s.moment().bootId())
                .append('\n')
                .append(s.moment().monotonicS())
                .append('\n'));
    crc.update(text.toString().getBytes(StandardCharsets.UTF_8));
    state.ifPresent(s -> crc.update(ByteBuffer.wrap(s.json())));
    return (int) crc.getValue();
  }
}
