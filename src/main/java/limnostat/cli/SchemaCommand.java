package limnostat.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.Callable;
import limnostat.wire.Schemas;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code limnostat schema}: the schemas of the documents on the wire, for other programs. */
@Command(
    name = "schema",
    description =
        "Prints the JSON Schema (2020-12) of a document that the program sends or takes, or"
            + " asyncapi, its topics as AsyncAPI 3.0. Without a name: the names.",
    footer = {"", "A printed schema stands alone. With --to the files refer to each other."})
final class SchemaCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(arity = "0..1", paramLabel = "NAME", description = "Which one.")
  private Optional<String> name = Optional.empty();

  @Option(
      names = "--to",
      paramLabel = "FOLDER",
      description = "Write all of them to a folder, one file each.")
  private Optional<Path> folder = Optional.empty();

  @Override
  public Integer call() throws IOException {
    if (folder.isPresent()) {
      if (name.isPresent()) {
        throw unusable("--to writes all of them: leave " + name.get() + " out");
      }
      write(folder.get());
    } else if (name.isEmpty()) {
      Schemas.NAMES.forEach(System.out::println);
    } else if (Schemas.NAMES.contains(name.get())) {
      System.out.print(Schemas.alone(name.get()));
    } else {
      throw unusable(
          "there is no document \"" + name.get() + "\"; " + String.join(", ", Schemas.NAMES));
    }
    return Limnostat.DONE;
  }

  private static void write(Path folder) throws IOException {
    Files.createDirectories(folder);
    for (String each : Schemas.NAMES) {
      Files.writeString(folder.resolve(each + ".json"), Schemas.file(each));
    }
  }

  private ParameterException unusable(String reason) {
    return new ParameterException(spec.commandLine(), reason);
  }
}
