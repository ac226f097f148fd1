package limnostat.wire;

/**
 * The health of the daemon itself, for the retained topic {@code health}. Counts are since the
 * start of the process.
 *
 * @param scans scans done
 * @param late scans that started later than the limit
 * @param overruns scans that started late or took most of their period
 * @param worstLatenessS the longest delay of a scan after its due time, s
 * @param worstDurationS the longest scan, s
 * @param endsInWindow how often the program ended within limits.restart_window, earlier processes
 *     included
 * @param orderlyEndsInWindow how many of these were orderly stops
 * @param ledgerFailing whether the ledger currently cannot be written
 * @param ledgerWorstCommitS the ledger's longest commit, s
 * @param mqttAttempts attempts to connect to the broker
 * @param mqttDroppedEvents events that never reached the broker
 * @param mqttWaiting messages that the broker has not acknowledged
 * @param mqttThinnedReadings readings dropped to make room while the broker was away
 */
public record HealthDocument(
    long scans,
    long late,
    long overruns,
    double worstLatenessS,
    double worstDurationS,
    int endsInWindow,
    int orderlyEndsInWindow,
    boolean ledgerFailing,
    double ledgerWorstCommitS,
    long mqttAttempts,
    long mqttDroppedEvents,
    int mqttWaiting,
    long mqttThinnedReadings) {

  public byte[] at(double unixTimeS) {
    return Json.document(
        json -> {
          json.writeStartObject();
          Json.time(json, "time_unix_s", unixTimeS);
          json.writeNumberField("scans", scans);
          json.writeNumberField("late", late);
          json.writeNumberField("overruns", overruns);
          Json.number(json, "worst_lateness_s", worstLatenessS);
          Json.number(json, "worst_duration_s", worstDurationS);
          json.writeNumberField("ends_in_window", endsInWindow);
          json.writeNumberField("orderly_ends_in_window", orderlyEndsInWindow);
          json.writeBooleanField("ledger_failing", ledgerFailing);
          Json.number(json, "ledger_worst_commit_s", ledgerWorstCommitS);
          json.writeNumberField("mqtt_attempts", mqttAttempts);
          json.writeNumberField("mqtt_dropped_events", mqttDroppedEvents);
          json.writeNumberField("mqtt_waiting", mqttWaiting);
          json.writeNumberField("mqtt_thinned_readings", mqttThinnedReadings);
          json.writeEndObject();
        });
  }
}
