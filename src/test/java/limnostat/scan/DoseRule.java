package limnostat.scan;

import java.util.EnumMap;
import java.util.Map;
import limnostat.account.DoseCaps;
import limnostat.actuate.Output;

/**
 * S3: what the outputs physically gave in any rolling hour and day of true time is within the caps,
 * nothing was given that was not in the ledger before, and the account never says less than was
 * given.
 */
final class DoseRule implements Rule {
  private record Given(RollingSum hour, RollingSum day) {}

  private final Map<Output, Given> given = new EnumMap<>(Output.class);

  DoseRule() {
    for (Output output : Output.values()) {
      given.put(output, new Given(new RollingSum(3600), new RollingSum(86_400)));
    }
  }

  @Override
  public void check(Seen seen) {
    for (Output output : Output.values()) {
      DoseCaps caps = seen.settings().of(output).caps();
      Given g = given.get(output);
      double perS = caps.ratePerH() * seen.driven().of(output) / 3600;
      within(g.hour, perS, seen, output, caps.hourCap());
      within(g.day, perS, seen, output, caps.dayCap());
      double booked = seen.in().booked().getOrDefault(output, 0.0);
      Rule.require(
          booked >= g.day.total() - ROUNDING,
          () -> "S3: " + output + " gave " + g.day.total() + ", booked " + booked);
      double accounted = seen.out().state().of(output).account().given();
      Rule.require(
          accounted >= g.day.total() - ROUNDING,
          () -> "S3: " + output + " gave " + g.day.total() + ", accounted " + accounted);
    }
  }

  private static void within(RollingSum sum, double perS, Seen seen, Output output, double cap) {
    double most = sum.most(seen.lastS(), seen.drivenUntilS(), perS);
    Rule.require(
        most <= cap + ROUNDING,
        () -> "S3: " + output + " gave " + most + " in " + sum.windowS() + " s, cap " + cap);
  }
}
