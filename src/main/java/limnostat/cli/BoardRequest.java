package limnostat.cli;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.Map;
import java.util.UUID;
import limnostat.daemon.LocalCommandFolder;

/**
 * A person's request at the machine. It reaches the daemon through its {@link LocalCommandFolder}.
 */
final class BoardRequest {
  private static final long ANSWER_MS_MAX = 15_000;
  private static final long LOOK_EVERY_MS = 50;
  private static final JsonMapper JSON = JsonMapper.builder().build();

  private BoardRequest() {}

  /**
   * Sends a request, waits for the answer and prints it.
   *
   * @param fields numbers, or words without quotes
   * @param json whether to print the answer as a document rather than in words
   * @return the exit status: done if accepted, failed if refused
   * @throws IOException nobody answers, or the spool cannot be written
   */
  static int send(Path ledgerFile, String type, Map<String, ?> fields, boolean json)
      throws IOException, InterruptedException {
    return print(ask(ledgerFile, type, fields), json);
  }

  /**
   * Prints an answer.
   *
   * @param json whether to print the document itself rather than words
   * @return the exit status: done if accepted, failed if refused
   */
  static int print(String document, boolean json) throws IOException {
    JsonNode answer = read(document);
    boolean accepted = answer.path("result").asText().equals("accepted");
    System.out.println(json ? document : words(answer));
    return accepted ? Limnostat.DONE : Limnostat.FAILED;
  }

  static JsonNode read(String document) throws IOException {
    return JSON.readTree(document);
  }

  /**
   * Sends a request and waits for the answer.
   *
   * @return a JSON document, as on the topic {@code result}, but without id and time
   * @throws IOException nobody answers, or the spool cannot be written
   */
  static String ask(Path ledgerFile, String type, Map<String, ?> fields)
      throws IOException, InterruptedException {
    String id = UUID.randomUUID().toString();
    return hand(LocalCommandFolder.folder(ledgerFile), id, document(id, type, fields));
  }

  private static String words(JsonNode answer) {
    String text = answer.path("reason").asText(answer.path("remark").asText());
    String result = answer.path("result").asText();
    return text.isEmpty() ? result : result + ": " + text;
  }

  private static String document(String id, String type, Map<String, ?> fields) throws IOException {
    StringBuilder json = new StringBuilder("{\"type\":\"" + type);
    json.append("\",\"request_id\":\"" + id);
    json.append("\",\"time\":\"" + Instant.now().truncatedTo(ChronoUnit.SECONDS) + '"');
    for (Map.Entry<String, ?> field : fields.entrySet()) {
      json.append(",\"" + field.getKey() + "\":" + value(field));
    }
    return json.append('}').toString();
  }

  private static String value(Map.Entry<String, ?> field) throws IOException {
    if (field.getValue() instanceof Double number) {
      if (!Double.isFinite(number)) {
        throw new IOException(field.getKey() + " " + number + " is not a number");
      }
      return BigDecimal.valueOf(number).toPlainString();
    }
    return "\"" + field.getValue() + "\"";
  }

  private static String hand(Path folder, String id, String document)
      throws IOException, InterruptedException {
    if (!Files.isDirectory(folder)) {
      throw new IOException(
          folder + " is not there: no daemon with this ledger has run yet, or not as this user");
    }
    Path command = LocalCommandFolder.command(folder, id);
    try {
      Path whole = folder.resolve(id + ".part");
      Files.writeString(whole, document, StandardCharsets.UTF_8);
      Files.move(whole, command, StandardCopyOption.ATOMIC_MOVE);
    } catch (AccessDeniedException e) {
      throw new IOException(
          folder + " cannot be written; run this as the user of the service (" + e + ")", e);
    }
    Path answer = LocalCommandFolder.answer(folder, id);
    long deadlineNs = System.nanoTime() + ANSWER_MS_MAX * 1_000_000;
    while (!Files.exists(answer) && System.nanoTime() < deadlineNs) {
      Thread.sleep(LOOK_EVERY_MS);
    }
    if (!Files.exists(answer)) {
      throw new IOException(
          Files.deleteIfExists(command)
              ? "no daemon took it: it does not run, or with another ledger; nothing is recorded"
              : "the daemon took it but has not answered; see its log");
    }
    String text = Files.readString(answer, StandardCharsets.UTF_8).strip();
    Files.delete(answer);
    return text;
  }
}
