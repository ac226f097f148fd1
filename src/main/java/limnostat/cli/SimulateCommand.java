package limnostat.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.Writer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.IntConsumer;
import limnostat.faults.FaultReport;
import limnostat.faults.FaultSuite;
import limnostat.safety.HardBounds;
import limnostat.season.Family;
import limnostat.season.Perfect;
import limnostat.season.Player;
import limnostat.season.Season;
import limnostat.season.SeasonReport;
import limnostat.season.SeasonSettings;
import limnostat.season.Spread;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/**
 * {@code limnostat simulate}: a season on simulated pools, comparing the program with simpler
 * controllers.
 */
@Command(
    name = "simulate",
    description =
        "A season on simulated pools: the program against simpler controllers, each on the same"
            + " pools. Touches no hardware.",
    footer = {
      "",
      "Progress goes to standard error, the result to standard output. A season",
      "begins on 1 June; the same options give the same result."
    })
final class SimulateCommand implements Callable<Integer> {
  private static final int NEAR_POOLS = 8;
  private static final int WIDE_POOLS = 24;

  @Option(
      names = "--pools",
      paramLabel = "N",
      description = "Number of pools (1 to 1000); 24, or 8 with --spread near.")
  private Integer pools;

  @Option(names = "--days", paramLabel = "N", defaultValue = "60", description = "Days (1 to 366).")
  private int days;

  @Option(
      names = "--seed",
      paramLabel = "N",
      defaultValue = "1",
      description = "Seed of the pools, weather, people and noise.")
  private long seed;

  @Option(
      names = "--spread",
      paramLabel = "wide|near|strange",
      defaultValue = "wide",
      description =
          "wide: everything differs as between real pools, and what is configured is off;"
              + " near: configured true within a few per cent, a sound electrode; strange: wide, and with"
              + " phenomena that the program does not model.")
  private Spread spread;

  @Option(
      names = "--family",
      paramLabel = "PART",
      defaultValue = "all",
      description =
          "With --spread strange, what is strange: electrode, water, people, plant, or all; the rest"
              + " is as in wide pools.")
  private Family family;

  @Option(
      names = "--answering",
      description =
          "The owner, who else tests weekly (one in four wide ones each third week), tests the first"
              + " time and then only when the program asks, at most once a week on average (strange ones: each"
              + " second day, by day and evening).")
  private boolean answering;

  @Option(
      names = "--habit",
      paramLabel = "DAYS",
      defaultValue = "0",
      description = "Every owner tests each so many days (1 to 60); 0: by habits of their own.")
  private int habitDays;

  @Option(
      names = "--players",
      paramLabel = "NAME",
      split = ",",
      description =
          "Who takes part: limnostat, fixed_output, orp_on_off, orp_pi; the clairvoyant does in any"
              + " case. All when left out.")
  private List<String> players;

  @Option(
      names = "--trace",
      paramLabel = "FILE",
      description =
          "Also write what the program believes and does beside the truth to a CSV file, a row for"
              + " each pool and hour.")
  private Path trace;

  @Option(
      names = "--perfect",
      paramLabel = "PART",
      split = ",",
      description =
          "For developers, what has no faults: kit, electrode, configured (volume, stabiliser, output).")
  private Set<Perfect> perfect;

  @Option(
      names = "--step",
      paramLabel = "S",
      defaultValue = "30",
      description = "Time between scans, s (1 to 60).")
  private double stepS;

  @Option(
      names = "--faults",
      description =
          "Instead of a season: every fault that can be made from the field, one by one, on a pool"
              + " that is being fed. Exit status 1 if one is not answered in time, is not named, or"
              + " a cap is passed. Goes with --json only.")
  private boolean faults;

  @Option(names = "--json", description = "Print one JSON document.")
  private boolean json;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws IOException {
    return faults ? faults() : season();
  }

  private int faults() throws IOException {
    if (spec.commandLine().getParseResult().matchedOptions().stream()
        .anyMatch(option -> !List.of("--faults", "--json").contains(option.longestName()))) {
      throw new CommandLine.ParameterException(
          spec.commandLine(), "--faults goes with --json only");
    }
    FaultReport report = FaultSuite.run();
    print(json ? List.of(report.json()) : report.lines());
    return report.ok() ? Limnostat.DONE : Limnostat.FAILED;
  }

  private int season() throws IOException {
    int count = Optional.ofNullable(pools).orElse(spread == Spread.NEAR ? NEAR_POOLS : WIDE_POOLS);
    if (count < 1
        || count > 1000
        || days < 1
        || days > 366
        || habitDays < 0
        || habitDays > 60
        || !(stepS >= 1 && stepS <= HardBounds.SCAN_GAP_S)) {
      throw new CommandLine.ParameterException(
          spec.commandLine(),
          "--pools is 1 to 1000, --days 1 to 366, --habit 0 to 60 and --step 1 to 60");
    }
    Set<Perfect> parts = perfect == null ? EnumSet.noneOf(Perfect.class) : perfect;
    PrintWriter err = spec.commandLine().getErr();
    AtomicInteger done = new AtomicInteger();
    IntConsumer poolDone =
        number -> {
          err.println("pool " + number + " done, " + done.incrementAndGet() + " of " + count);
          err.flush();
        };
    Season season =
        new Season(
            new SeasonSettings(
                count, days, seed, spread, family, taking(), habitDays, answering, parts, stepS));
    SeasonReport report = trace == null ? season.run(poolDone) : traced(season, poolDone);
    print(json ? List.of(report.json()) : report.lines());
    return Limnostat.DONE;
  }

  private SeasonReport traced(Season season, IntConsumer poolDone) throws IOException {
    try (Writer file = Files.newBufferedWriter(trace)) {
      return season.run(poolDone, file);
    }
  }

  private List<Player> taking() {
    if (players == null) {
      return List.of(Player.values());
    }
    List<Player> taking = new ArrayList<>();
    for (String name : players) {
      taking.add(
          Player.ofKey(name)
              .orElseThrow(
                  () ->
                      new CommandLine.ParameterException(
                          spec.commandLine(),
                          "--players has no '"
                              + name
                              + "': limnostat, fixed_output, orp_on_off, orp_pi, clairvoyant")));
    }
    return taking;
  }

  private void print(List<String> lines) {
    PrintWriter out = spec.commandLine().getOut();
    lines.forEach(out::println);
    out.flush();
  }
}
