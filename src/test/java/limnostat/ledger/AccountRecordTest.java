package limnostat.ledger;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.FileTime;
import java.util.Arrays;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import limnostat.actuate.Output;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The second record of the account: what it says after whatever was done to it. */
class AccountRecordTest {
  private static final int OTHER_SLOT = 65_536;

  @TempDir Path folder;
  private Path ledger;
  private Path file;

  @BeforeEach
  void name() {
    ledger = folder.resolve("ledger.db");
    file = folder.resolve("ledger.db.account");
  }

  private AccountRecord record() {
    return new AccountRecord(ledger, Tuning.DEFAULT.otherHandMs());
  }

  private static Seal seal(long commits) {
    return new Seal(
        "1f0e",
        "",
        commits,
        Map.of(Output.CHLORINE, 80.00000000000001 + commits),
        (int) (commits * 0x9e3779b1));
  }

  private AccountRecord written(int commits) throws Exception {
    AccountRecord record = record();
    record.ensure();
    for (int i = 1; i <= commits; i++) {
      record.write(seal(i));
    }
    return record;
  }

  @Test
  void theNewestOfManyIsReadBack() throws Exception {
    assertEquals(AccountRecord.Found.NOTHING, record().read());
    AccountRecord record = written(0);
    assertEquals(new AccountRecord.Found(true, Optional.empty(), 0, false), record.read());
    for (int i = 1; i < 10; i++) {
      record.write(seal(i));
      assertEquals(new AccountRecord.Found(true, Optional.of(seal(i)), 0, false), record().read());
      record = record(); // as a new process
      record.read();
    }
    // 4 kB a commit is what the card has to bear; it does not grow.
    assertEquals(OTHER_SLOT + 4096, Files.size(file));
  }

  @Test
  void aTornWriteLeavesTheOneBefore() throws Exception {
    written(7);
    byte[] whole = Files.readAllBytes(file);
    int newest = text(whole, 0).contains(" 7 ") ? 0 : OTHER_SLOT;
    byte[] torn = whole.clone();
    Arrays.fill(torn, newest + 20, newest + 4096, (byte) 0);
    Files.write(file, torn);
    AccountRecord.Found found = record().read();
    assertEquals(Optional.of(seal(6)), found.newest());
    assertEquals(1, found.unreadable());
    // A slot that is empty was not always so.
    Arrays.fill(torn, newest, newest + 4096, (byte) 0);
    Files.write(file, torn);
    assertEquals(1, record().read().unreadable());
  }

  private static String text(byte[] bytes, int from) {
    return new String(bytes, from, 200, StandardCharsets.ISO_8859_1);
  }

  /** Whatever is done to it, it never says what it was not given. */
  @Test
  void damageIsNeverReadAsAnotherSeal() throws Exception {
    written(7);
    byte[] whole = Files.readAllBytes(file);
    Random random = new Random(20_270_114);
    for (int i = 0; i < 2000; i++) {
      byte[] damaged = whole.clone();
      int slot = random.nextBoolean() ? 0 : OTHER_SLOT;
      int at = slot + random.nextInt(random.nextBoolean() ? 160 : 4096);
      switch (random.nextInt(3)) {
        case 0 -> damaged[at] ^= (byte) (1 << random.nextInt(8));
        case 1 -> Arrays.fill(damaged, at, Math.min(slot + 4096, at + 512), (byte) 0);
        default -> damaged = Arrays.copyOf(damaged, at);
      }
      Files.write(file, damaged);
      AccountRecord.Found found = record().read();
      int run = i;
      assertTrue(
          found.newest().isEmpty()
              || found.newest().get().equals(seal(7))
              || (found.newest().get().equals(seal(6)) && found.unreadable() == 1),
          () -> "case " + run + ": " + found);
    }
  }

  /** A process that was killed between its first commit and the record of it. */
  @Test
  void theFirstSealNeedNotBeTheFirstCommit() throws Exception {
    AccountRecord record = written(0);
    record.read();
    record.write(seal(2));
    assertEquals(new AccountRecord.Found(true, Optional.of(seal(2)), 0, false), record().read());
  }

  @Test
  void oneThatIsRuinedIsBegunAnew() throws Exception {
    written(7);
    Files.write(file, new byte[] {1, 2, 3});
    AccountRecord record = record();
    assertEquals(2, record.read().unreadable());
    record.write(seal(9));
    assertEquals(new AccountRecord.Found(true, Optional.of(seal(9)), 0, false), record().read());
    Files.delete(file);
    record.write(seal(10));
    assertEquals(new AccountRecord.Found(true, Optional.of(seal(10)), 0, false), record().read());
  }

  /** With all the times that its maker gave it; the kernel knows when it came here. */
  @Test
  void aCopyThatWasPutBackIsKnown() throws Exception {
    written(3);
    Path backup = folder.resolve("backup");
    Files.copy(file, backup, StandardCopyOption.COPY_ATTRIBUTES);
    FileTime time = Files.getLastModifiedTime(backup);
    assertFalse(record().read().otherHand());
    Thread.sleep(Tuning.DEFAULT.otherHandMs() + 100);
    assertFalse(record().read().otherHand());
    Files.copy(
        backup, file, StandardCopyOption.REPLACE_EXISTING, StandardCopyOption.COPY_ATTRIBUTES);
    assertEquals(time, Files.getLastModifiedTime(file));
    AccountRecord record = record();
    assertTrue(record.read().otherHand());
    record.write(seal(4));
    assertFalse(record().read().otherHand(), "until it is ours again");
  }
}
