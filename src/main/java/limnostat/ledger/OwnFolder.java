package limnostat.ledger;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Map;
import java.util.Optional;

/**
 * A folder of the program, beside the ledger, that nobody else may write to. Whoever can write
 * there is taken for a person at the machine, or gets a library of theirs loaded. An existing
 * folder is checked, as somebody else may have made it. Owners are given as numbers, since a
 * service's user may have no name.
 */
public final class OwnFolder {
  private static final int ROOT = 0;

  // Bits of st_mode, inode(7).
  private static final int OTHERS_WRITE = 0022;
  private static final int ALL_WRITE = 0002;
  private static final int STICKY = 01000;

  private OwnFolder() {}

  /** The folder with people's commands. */
  public static Path commands(Path ledgerFile) {
    return ledgerFile.resolveSibling(ledgerFile.getFileName() + ".commands");
  }

  /** The folder in which SQLite's native library is unpacked. */
  public static Path natives(Path ledgerFile) {
    return ledgerFile.resolveSibling(ledgerFile.getFileName() + ".native");
  }

  /**
   * Makes the folder if it does not exist.
   *
   * @throws IOException it cannot be made, or the existing one cannot be trusted; the message says
   *     what failed, where, and the remedy
   */
  public static void prepare(Path folder) throws IOException {
    try {
      Files.createDirectory(
          folder,
          PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rwx------")));
    } catch (FileAlreadyExistsException e) {
      // From an earlier run, or somebody else's: checked like a folder that was just made.
    }
    Optional<String> fault = fault(folder, ownUser());
    if (fault.isPresent()) {
      throw new IOException(fault.get());
    }
  }

  /**
   * Why an existing folder cannot be trusted.
   *
   * @param user number of the user who must own it
   */
  public static Optional<String> fault(Path folder, int user) throws IOException {
    if (!Files.isDirectory(folder, LinkOption.NOFOLLOW_LINKS)) {
      return Optional.of(
          folder + " is no folder, or a link to one; remove it, and the program makes it anew");
    }
    Map<String, Object> attributes = attributes(folder);
    int owner = (int) attributes.get("uid");
    if (owner != user) {
      return Optional.of(
          folder
              + " belongs to user "
              + owner
              + " and not to user "
              + user
              + ", as whom the program runs: somebody else may have made it; look at what is in it,"
              + " then remove it, and the program makes it anew");
    }
    int mode = (int) attributes.get("mode");
    if ((mode & OTHERS_WRITE) != 0) {
      return Optional.of(
          folder
              + " may be written by others (mode "
              + Integer.toOctalString(mode & 07777)
              + "); look at what is in it, then chmod 700 it");
    }
    Path parent = folder.toAbsolutePath().getParent();
    int above = (int) attributes(parent).get("mode");
    if ((above & ALL_WRITE) != 0 && (above & STICKY) == 0) {
      return Optional.of(
          "everybody may write in "
              + parent
              + " and so put another folder in the place of "
              + folder
              + "; chmod o-w "
              + parent);
    }
    return Optional.empty();
  }

  /** Whether a file belongs to this process's user or to root, who may do anything anyway. */
  public static boolean ours(Path file) throws IOException {
    int owner = (int) attributes(file).get("uid");
    return owner == ROOT || owner == ownUser();
  }

  /** Number of the user who owns a file. */
  public static int owner(Path file) throws IOException {
    return (int) attributes(file).get("uid");
  }

  /** Number of the user who runs this process: the owner of its own entry in /proc. */
  public static int ownUser() throws IOException {
    return (int) Files.getAttribute(Path.of("/proc/self"), "unix:uid");
  }

  private static Map<String, Object> attributes(Path file) throws IOException {
    return Files.readAttributes(file, "unix:uid,mode", LinkOption.NOFOLLOW_LINKS);
  }
}
