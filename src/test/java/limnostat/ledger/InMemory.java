package limnostat.ledger;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.extension.AnnotatedElementContext;
import org.junit.jupiter.api.extension.ExtensionContext;
import org.junit.jupiter.api.io.TempDirFactory;

/** A folder in memory where the machine has one, for tests that open thousands of files. */
public final class InMemory implements TempDirFactory {
  private static final Path MEMORY = Path.of("/dev/shm");

  @Override
  public Path createTempDirectory(AnnotatedElementContext element, ExtensionContext context)
      throws IOException {
    return Files.isWritable(MEMORY)
        ? Files.createTempDirectory(MEMORY, "limnostat")
        : Files.createTempDirectory("limnostat");
  }
}
