package limnostat.cli;

import java.io.IOException;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.concurrent.Callable;
import limnostat.config.ConfigurationException;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code limnostat test}: a water test for the running daemon, without any broker. */
@Command(
    name = "test",
    description = "Hands a water test to the running daemon and prints its answer.",
    footer = {
      "",
      "Only on the machine itself, as a user who may write in the ledger's folder. Where no daemon",
      "answers nothing is recorded, and the exit status is 1."
    })
final class TestCommand implements Callable<Integer> {
  private static final long ANSWER_MS_MAX = 15_000;
  private static final long LOOK_EVERY_MS = 50;

  @Mixin private ConfigOption config;
  @Spec private CommandSpec spec;

  @Option(names = "--free-chlorine", paramLabel = "MG_L", description = "Free chlorine, mg/L.")
  private Double freeChlorine;

  @Option(
      names = "--combined-chlorine",
      paramLabel = "MG_L",
      description = "Combined chlorine, mg/L.")
  private Double combinedChlorine;

  @Option(names = "--total-chlorine", paramLabel = "MG_L", description = "Total chlorine, mg/L.")
  private Double totalChlorine;

  @Option(names = "--ph", paramLabel = "PH", description = "pH.")
  private Double ph;

  @Option(
      names = "--alkalinity",
      paramLabel = "MG_L",
      description = "Total alkalinity, mg/L as calcium carbonate.")
  private Double alkalinity;

  @Option(names = "--cyanuric-acid", paramLabel = "MG_L", description = "Stabiliser, mg/L.")
  private Double cyanuricAcid;

  @Option(
      names = "--calcium",
      paramLabel = "MG_L",
      description = "Calcium hardness, mg/L as calcium carbonate.")
  private Double calcium;

  @Option(names = "--salt", paramLabel = "MG_L", description = "Salt, mg/L.")
  private Double salt;

  @Override
  public Integer call() throws ConfigurationException, IOException, InterruptedException {
    Map<String, Double> values = new LinkedHashMap<>();
    values.put("free_chlorine_mg_l", freeChlorine);
    values.put("combined_chlorine_mg_l", combinedChlorine);
    values.put("total_chlorine_mg_l", totalChlorine);
    values.put("ph", ph);
    values.put("total_alkalinity_mg_l", alkalinity);
    values.put("cyanuric_acid_mg_l", cyanuricAcid);
    values.put("calcium_hardness_mg_l", calcium);
    values.put("salt_mg_l", salt);
    values.values().removeIf(value -> value == null);
    if (values.isEmpty()) {
      throw new CommandLine.ParameterException(
          spec.commandLine(), "a test has at least one value, as --free-chlorine 3.1");
    }
    values.forEach(
        (name, value) -> {
          if (!Double.isFinite(value)) {
            throw new CommandLine.ParameterException(
                spec.commandLine(), name + " " + value + " is not a number");
          }
        });
    String id = UUID.randomUUID().toString();
    return hand(
        Spool.folder(config.load().configuration().ledger().file()), id, document(id, values));
  }

  private static String document(String id, Map<String, Double> values) {
    StringBuilder json = new StringBuilder("{\"type\":\"test_result\",\"request_id\":\"" + id);
    json.append("\",\"time\":\"" + Instant.now().truncatedTo(ChronoUnit.SECONDS) + '"');
    values.forEach(
        (name, value) ->
            json.append(",\"" + name + "\":" + BigDecimal.valueOf(value).toPlainString()));
    return json.append('}').toString();
  }

  private static int hand(Path folder, String id, String document)
      throws IOException, InterruptedException {
    if (!Files.isDirectory(folder)) {
      throw new IOException(
          folder + " is not there: no daemon with this ledger has run yet, or not as this user");
    }
    Path command = Spool.command(folder, id);
    try {
      Path whole = folder.resolve(id + ".part");
      Files.writeString(whole, document, StandardCharsets.UTF_8);
      Files.move(whole, command, StandardCopyOption.ATOMIC_MOVE);
    } catch (AccessDeniedException e) {
      throw new IOException(
          folder + " cannot be written; run this as the user of the service (" + e + ")", e);
    }
    Path answer = Spool.answer(folder, id);
    long deadlineNs = System.nanoTime() + ANSWER_MS_MAX * 1_000_000;
    while (!Files.exists(answer) && System.nanoTime() < deadlineNs) {
      Thread.sleep(LOOK_EVERY_MS);
    }
    if (!Files.exists(answer)) {
      throw new IOException(
          Files.deleteIfExists(command)
              ? "no daemon took the test: it does not run, or with another ledger; nothing is"
                  + " recorded"
              : "the daemon took the test but has not answered; see its log");
    }
    List<String> lines = Files.readAllLines(answer, StandardCharsets.UTF_8);
    Files.delete(answer);
    boolean accepted = lines.get(0).equals("accepted");
    String text = lines.size() > 1 ? lines.get(1) : "";
    System.out.println(text.isEmpty() ? lines.get(0) : lines.get(0) + ": " + text);
    return accepted ? Limnostat.DONE : Limnostat.FAILED;
  }
}
