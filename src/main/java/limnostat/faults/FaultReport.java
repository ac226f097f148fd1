package limnostat.faults;

import com.fasterxml.jackson.annotation.JsonProperty;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.PropertyNamingStrategies;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * The results of all faults.
 *
 * @param faults the faults that were made
 * @param notInjected the causes for which no fault was made
 */
public record FaultReport(List<Row> faults, List<Left> notInjected) {
  static final String NO_REASON = "nobody has written a fault for it";
  static final String NEVER = "not within a day";

  /**
   * One fault.
   *
   * @param cause id of the matrix row that has to respond
   * @param answer its effect on the output: off, limited, or only reported to people
   * @param answered whether it responded within the permitted time
   * @param tookS time from the fault to the safe output, or until it was reported, s
   * @param fed what the output was commanded to deliver meanwhile, g of chlorine or mL of acid
   * @param named whether the alarm was raised, or the inhibit if there is no alarm
   * @param namedAs the kind of report: the inhibit, or the alarm with its priority
   * @param withinCaps whether the caps were respected throughout
   * @param recovery how it ended
   */
  public record Row(
      String cause,
      String fault,
      String output,
      String answer,
      boolean answered,
      double tookS,
      double fed,
      boolean named,
      String namedAs,
      boolean withinCaps,
      String recovery) {
    @JsonProperty
    public boolean ok() {
      return answered && named && withinCaps && !recovery.equals(NEVER);
    }
  }

  /** A cause without a fault. */
  public record Left(String cause, String reason) {
    boolean excused() {
      return !reason.equals(NO_REASON);
    }
  }

  /**
   * Whether every fault was answered in time and named, no cap was exceeded, and no cause was left
   * out.
   */
  @JsonProperty
  public boolean ok() {
    return faults.stream().allMatch(Row::ok) && notInjected.stream().allMatch(Left::excused);
  }

  static String time(double seconds) {
    return seconds < 120
        ? String.format(Locale.ROOT, "%.0f s", seconds)
        : seconds < 7200
            ? String.format(Locale.ROOT, "%.0f min", seconds / 60)
            : String.format(Locale.ROOT, "%.1f h", seconds / 3600);
  }

  /** The table for people, line by line. */
  public List<String> lines() {
    List<String> lines = new ArrayList<>();
    lines.add(
        "Each fault on a simulated pool of its own that is being fed, a scan a second; chlorine at"
            + " 20 g/h, acid at 1500 mL/h.");
    lines.add("");
    String form = "%-26s%-36s%-9s%-8s%7s%9s  %-16s%-22s%s";
    lines.add(
        String.format(
            Locale.ROOT,
            form,
            "cause",
            "fault",
            "output",
            "answer",
            "after",
            "fed",
            "named",
            "over",
            ""));
    for (Row row : faults) {
      lines.add(
          String.format(
                  Locale.ROOT,
                  form,
                  row.cause(),
                  row.fault(),
                  row.output(),
                  row.answered() ? row.answer() : "NONE",
                  time(row.tookS()),
                  String.format(
                      Locale.ROOT, row.output().equals("acid") ? "%.1f mL" : "%.2f g", row.fed()),
                  row.named() ? row.namedAs() : "NOT NAMED",
                  row.recovery(),
                  row.withinCaps() ? "" : "PAST A CAP")
              .stripTrailing());
    }
    lines.add("");
    lines.add("Not injected:");
    notInjected.forEach(
        left -> lines.add(String.format(Locale.ROOT, "%-26s%s", left.cause(), left.reason())));
    lines.add("");
    lines.add(
        ok()
            ? "Every fault was answered in time and named, and no cap was passed."
            : "FAILED: see what is in capitals.");
    return lines;
  }

  /** One JSON document with the figures of the table. */
  public String json() throws JsonProcessingException {
    return JsonMapper.builder()
        .propertyNamingStrategy(PropertyNamingStrategies.SNAKE_CASE)
        .enable(SerializationFeature.INDENT_OUTPUT)
        .build()
        .writeValueAsString(this);
  }
}
