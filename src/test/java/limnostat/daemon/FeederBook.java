package limnostat.daemon;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** What the feeder of {@link FeedingProcess} really gave, over all processes so far. */
final class FeederBook {
  /** Chlorine at a level from one moment to another, simulated s. */
  private record Run(double fromS, double toS, double level) {
    double within(double beganS, double endedS) {
      return level * Math.max(0, Math.min(toS, endedS) - Math.max(fromS, beganS));
    }
  }

  private final Path file;
  private final double rateGH;
  private final List<Run> runs = new ArrayList<>();
  private int read;

  FeederBook(Path file, double rateGH) {
    this.file = file;
    this.rateGH = rateGH;
  }

  /**
   * Reads what a process wrote since the last call.
   *
   * @param goneNs when the process was certainly gone, ns of {@link System#nanoTime}: until then
   *     its last level held
   * @return the levels in their order
   */
  List<Double> close(long goneNs) throws IOException {
    List<String> all = Files.exists(file) ? Files.readAllLines(file) : List.of();
    List<String> lines = all.subList(read, all.size());
    read = all.size();
    List<Double> levels = new ArrayList<>();
    for (int i = 0; i < lines.size(); i++) {
      double level = Double.parseDouble(lines.get(i).split(" ", 2)[1]);
      levels.add(level);
      double toS = i + 1 < lines.size() ? atS(lines.get(i + 1)) : goneNs / 1e9 * HurriedClock.SPEED;
      runs.add(new Run(atS(lines.get(i)), toS, level));
    }
    return levels;
  }

  private static double atS(String line) {
    return Long.parseLong(line.split(" ", 2)[0]) / 1e9 * HurriedClock.SPEED;
  }

  /** All that was ever given, g. */
  double totalG() {
    return givenG(Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY);
  }

  /** Most in any window of this length, g: one of them ends where a run ends. */
  double mostG(double windowS) {
    return runs.stream().mapToDouble(run -> givenG(run.toS() - windowS, run.toS())).max().orElse(0);
  }

  private double givenG(double fromS, double toS) {
    return runs.stream().mapToDouble(run -> run.within(fromS, toS)).sum() * rateGH / 3600;
  }
}
