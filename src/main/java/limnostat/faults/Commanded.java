package limnostat.faults;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import limnostat.actuate.Output;
import limnostat.actuate.Outputs;
import limnostat.scan.ScanSettings;

/**
 * What the outputs were commanded to deliver, counted independently of the program's own account.
 */
final class Commanded {
  private record Run(double fromS, double toS, double amount) {}

  private final Map<Output, List<Run>> runs = new EnumMap<>(Output.class);
  private double atS;

  void passed(Outputs outputs, ScanSettings settings, double elapsedS) {
    for (Output output : Output.values()) {
      double amount = settings.of(output).caps().ratePerH() * outputs.of(output) * elapsedS / 3600;
      if (amount > 0) {
        runs.computeIfAbsent(output, o -> new ArrayList<>())
            .add(new Run(atS, atS + elapsedS, amount));
      }
    }
    atS += elapsedS;
  }

  /** The total, g or mL. */
  double total(Output output) {
    return of(output).stream().mapToDouble(Run::amount).sum();
  }

  /** The most in any window of this length. Such a window can be chosen to end where a run ends. */
  double most(Output output, double windowS) {
    List<Run> all = of(output);
    double most = 0;
    double within = 0;
    int first = 0;
    for (Run run : all) {
      within += run.amount();
      while (all.get(first).toS() <= run.toS() - windowS) {
        within -= all.get(first).amount();
        first++;
      }
      most = Math.max(most, within);
    }
    return most;
  }

  private List<Run> of(Output output) {
    return runs.getOrDefault(output, List.of());
  }
}
