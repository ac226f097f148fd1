package limnostat.cli;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import limnostat.ledger.OwnFolder;
import limnostat.scan.Command;

/**
 * The wish of a person at the machine that the season's totals begin anew: an empty file beside the
 * ledger, which only those can make who may write there. The daemon looks for it when it starts.
 */
final class SeasonReset {
  private SeasonReset() {}

  static Path marker(Path ledgerFile) {
    return ledgerFile.resolveSibling(ledgerFile.getFileName() + ".season-reset");
  }

  /**
   * @throws IOException the folder is absent or not to be written
   */
  static void leave(Path ledgerFile) throws IOException {
    try {
      Files.createFile(marker(ledgerFile));
    } catch (FileAlreadyExistsException e) {
      // Asked for already; once is enough.
      return;
    }
  }

  /**
   * Takes the wish away, and hands it on only then: a marker that stayed would empty the totals at
   * every start, and one that is lost leaves them too high.
   */
  static List<Command.Request> take(Path ledgerFile, EventLog log) {
    Path marker = marker(ledgerFile);
    try {
      if (!Files.exists(marker, LinkOption.NOFOLLOW_LINKS)) {
        return List.of();
      }
      boolean ours = OwnFolder.ours(marker);
      Files.delete(marker);
      if (!ours) {
        throw new IOException("it was made by another user; it is removed");
      }
      return List.of(request());
    } catch (IOException e) {
      log.warn(
          "the season's totals stay as they are: "
              + marker(ledgerFile)
              + " cannot be removed ("
              + e
              + "); remove it, then ask again");
      return List.of();
    }
  }

  private static Command.Request request() {
    return new Command.Request(
        Optional.empty(),
        "season_reset",
        Command.Request.BOARD,
        "{\"type\":\"season_reset\"}",
        new Command.ResetSeason());
  }
}
