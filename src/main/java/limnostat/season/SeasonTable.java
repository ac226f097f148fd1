package limnostat.season;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import limnostat.season.SeasonReport.Figure;
import limnostat.season.SeasonReport.PoolResult;
import limnostat.season.SeasonReport.Summary;

/** Formats the results of a season for people. */
final class SeasonTable {
  private static final String ROW = "%-13s%7s%8s%8s%8s%8s%8s%8s%8s%7s%7s%8s";

  private static final String GOAL_ROW = "%-13s%18s%17s%20s%18s%17s%15s";

  private SeasonTable() {}

  static List<String> lines(SeasonReport report) {
    SeasonSettings season = report.season();
    List<String> lines = new ArrayList<>();
    add(
        lines,
        "A season of %d days on %d simulated pools, spread %s, seed %d, a scan each %.0f s%s%s.",
        season.days(),
        season.pools(),
        spread(season),
        season.seed(),
        season.stepS(),
        (season.answering() ? ", the owner answers" : "")
            + (season.habitDays() > 0 ? ", a test each " + season.habitDays() + " days" : ""),
        season.perfect().isEmpty()
            ? ""
            : ", perfect: " + season.perfect().toString().toLowerCase(Locale.ROOT));
    add(lines, "");
    for (Player player : season.players()) {
      add(lines, "%-13s%s", player.label(), player.description());
    }
    add(lines, "");
    for (PoolResult pool : report.pools()) {
      pool(lines, pool);
    }
    add(lines, "All pools: mean, median, worst of those that the clairvoyant holds for 90 %%.");
    head(lines);
    report.summary().forEach((label, summary) -> summary(lines, label.replace('_', ' '), summary));
    add(lines, "");
    add(lines, "band: %% of the time within the target +- 1 mg/L, nowhere below 2.5 or above 5");
    add(lines, "of cl: time in band against the clairvoyant's on the same pool, %%");
    add(lines, "< 1, < san: %% of the time below 1 mg/L, and below 5 %% of the stabiliser");
    add(lines, "> 10 h: hours above 10 mg/L outside superchlorination; top: highest, mg/L");
    add(lines, "fed: chlorine fed against the clairvoyant's, %%; on/d: switchings on a day");
    add(lines, "error: RMS of the estimate, mg/L; in 2sd: %% of the time truth within 2 sd of it");
    goals(lines, report);
    return lines;
  }

  private static String spread(SeasonSettings season) {
    String spread = season.spread().name().toLowerCase(Locale.ROOT);
    return season.spread() == Spread.STRANGE
        ? spread + " (" + season.family().name().toLowerCase(Locale.ROOT) + ")"
        : spread;
  }

  private static void goals(List<String> lines, SeasonReport report) {
    add(lines, "");
    add(
        lines,
        "From 9 to 21 h: mean, median, worst. Of %d pools %d are winnable: the clairvoyant holds them"
            + " for %.0f %% of these hours.",
        report.pools().size(),
        report.goals().get(Player.CLAIRVOYANT.key()).winnablePools(),
        Goals.WINNABLE_PERCENT);
    add(lines, GOAL_ROW, "", "of cl, winnable", "< 1", "silent h", "in 2sd", "top/band", "tests");
    report
        .goals()
        .forEach(
            (key, g) ->
                add(
                    lines,
                    GOAL_ROW,
                    key.replace('_', ' '),
                    three(g.ofClairvoyantPercent(), 0),
                    three(g.belowOnePercent(), 0),
                    three(g.silentHours(), 0),
                    three(g.coveredPercent(), 0),
                    three(g.highestOverBand(), 1),
                    three(g.tests(), 0)));
    add(lines, "");
    add(lines, "of cl: time in band against the clairvoyant's, %%, over winnable pools");
    add(lines, "< 1: %% of the time below 1 mg/L, over all pools as all that follow");
    add(lines, "silent h: longest time below 0.5 mg/L with no alarm of high priority for it, h");
    add(lines, "top/band: highest over the band's upper edge");
  }

  private static String three(Figure figure, int digits) {
    return figure == null
        ? ""
        : figure(Figure::mean, figure, digits)
            + " / "
            + figure(Figure::median, figure, digits)
            + " / "
            + figure(Figure::worst, figure, digits);
  }

  private static void pool(List<String> lines, PoolResult pool) {
    add(
        lines,
        "Pool %d: %.0f m3, stabiliser %.0f mg/L, %s%s, pump %.1f h, demand %.1f mg/L a day, output"
            + " %.1f times it, electrode %+.0f mV and %.0f mV a decade, band %.1f to %.1f mg/L",
        pool.number(),
        pool.volumeM3(),
        pool.cyanuricAcidMgL(),
        pool.feeder().replace('_', ' '),
        pool.acidFeeder() ? " and acid" : "",
        pool.pumpHours(),
        pool.demandMgLDay(),
        pool.outputOverDemand(),
        pool.electrodeOffsetMv(),
        pool.electrodeSlopeMv(),
        pool.band().lowMgL(),
        pool.band().highMgL());
    if (!pool.traits().isEmpty()) {
      add(lines, "  strange: %s", String.join("; ", pool.traits()));
    }
    head(lines);
    for (Map.Entry<String, Score> entry : pool.contestants().entrySet()) {
      Score s = entry.getValue();
      add(
          lines,
          ROW,
          entry.getKey().replace('_', ' '),
          one(s.inBandPercent()),
          one(s.ofClairvoyantPercent()),
          one(s.belowOnePercent()),
          one(s.belowSanitisingPercent()),
          one(s.aboveTenHours()),
          one(s.highestMgL()),
          one(s.fedOfClairvoyantPercent()),
          one(s.switchingsPerDay()),
          s.tests(),
          s.estimateErrorMgL() == null ? "" : two(s.estimateErrorMgL()),
          s.estimateCoveredPercent() == null ? "" : one(s.estimateCoveredPercent()));
    }
    add(lines, "");
  }

  private static void head(List<String> lines) {
    add(
        lines, ROW, "", "band", "of cl", "< 1", "< san", "> 10 h", "top", "fed", "on/d", "tests",
        "error", "in 2sd");
  }

  private static void summary(List<String> lines, String label, Summary s) {
    row(lines, label, s, Figure::mean);
    row(lines, "  median", s, Figure::median);
    row(lines, "  worst", s, Figure::worst);
  }

  private interface Part {
    Double of(Figure figure);
  }

  private static void row(List<String> lines, String label, Summary s, Part part) {
    add(
        lines,
        ROW,
        label,
        figure(part, s.inBandPercent(), 1),
        figure(part, s.ofClairvoyantPercent(), 1),
        figure(part, s.belowOnePercent(), 1),
        figure(part, s.belowSanitisingPercent(), 1),
        figure(part, s.aboveTenHours(), 1),
        figure(part, s.highestMgL(), 1),
        figure(part, s.fedOfClairvoyantPercent(), 1),
        figure(part, s.switchingsPerDay(), 1),
        figure(part, s.tests(), 0),
        figure(part, s.estimateErrorMgL(), 2),
        figure(part, s.estimateCoveredPercent(), 1));
  }

  private static String figure(Part part, Figure figure, int digits) {
    if (figure == null) {
      return "";
    }
    Double value = part.of(figure);
    return value == null ? "-" : String.format(Locale.ROOT, "%." + digits + "f", value);
  }

  private static String one(double value) {
    return String.format(Locale.ROOT, "%.1f", value);
  }

  private static String two(double value) {
    return String.format(Locale.ROOT, "%.2f", value);
  }

  private static void add(List<String> lines, String format, Object... values) {
    lines.add(String.format(Locale.ROOT, format, values).stripTrailing());
  }
}
