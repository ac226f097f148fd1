package limnostat.plant;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;

/** Bathers and the chlorine demand that they bring. */
public final class Bathers {
  private final Settings settings;
  private final double longitudeDeg;
  private final Random random;
  private final List<Visit> visits = new ArrayList<>();
  private long solarDay = Long.MIN_VALUE;

  /**
   * @param visitsPerDay mean number of groups on a warm day
   * @param peopleMax a group has 1 to this many people
   * @param chlorinePerBatherG chlorine that one bather consumes in total, g Cl2: Bradford (2014)
   *     5.5 [checked], Berg et al. (2019) 4.12 [checked]
   */
  public record Settings(double visitsPerDay, int peopleMax, double chlorinePerBatherG) {}

  private record Visit(int people, double fromUnixS, double untilUnixS) {}

  Bathers(Settings settings, double longitudeDeg, Random random) {
    this.settings = settings;
    this.longitudeDeg = longitudeDeg;
    this.random = random;
  }

  void invite(int people, double fromUnixS, double untilUnixS) {
    visits.add(new Visit(people, fromUnixS, untilUnixS));
  }

  /** Draws the visits of a new day: more at weekends, fewer in cool water [judgement]. */
  void advanceTo(double unixTimeS, double waterC) {
    double solarS = unixTimeS + longitudeDeg / 15 * 3600;
    long today = (long) StrictMath.floor(solarS / 86_400);
    if (today == solarDay) {
      return;
    }
    solarDay = today;
    visits.removeIf(visit -> visit.untilUnixS < unixTimeS);
    long weekday = Math.floorMod(today + 4, 7L); // 1970-01-01 was a Thursday; 0 is Sunday
    double weekendFactor = weekday == 0 || weekday == 6 ? 1.6 : 0.76;
    double warmth = StrictMath.max(0, StrictMath.min(1, (waterC - 17) / 6));
    int count = poisson(settings.visitsPerDay * weekendFactor * warmth);
    for (int i = 0; i < count; i++) {
      int people = 1 + random.nextInt(settings.peopleMax);
      double startHour = 10 + 9 * random.nextDouble();
      double stayS = 1800 + 5400 * random.nextDouble();
      double fromUnixS = today * 86_400.0 - longitudeDeg / 15 * 3600 + startHour * 3600;
      if (fromUnixS >= unixTimeS) {
        invite(people, fromUnixS, fromUnixS + stayS);
      }
    }
  }

  int present(double unixTimeS) {
    int people = 0;
    for (Visit visit : visits) {
      if (visit.fromUnixS <= unixTimeS && unixTimeS < visit.untilUnixS) {
        people += visit.people;
      }
    }
    return people;
  }

  /** The chlorine demand brought between two times, spread evenly over each stay, g Cl2. */
  double broughtG(double fromUnixS, double untilUnixS) {
    double sumG = 0;
    for (Visit visit : visits) {
      double overlapS =
          StrictMath.min(untilUnixS, visit.untilUnixS) - StrictMath.max(fromUnixS, visit.fromUnixS);
      if (overlapS > 0) {
        sumG +=
            visit.people
                * settings.chlorinePerBatherG
                * overlapS
                / (visit.untilUnixS - visit.fromUnixS);
      }
    }
    return sumG;
  }

  /** Poisson draw by Knuth's product of uniforms, good for small means. */
  private int poisson(double mean) {
    double limit = StrictMath.exp(-mean);
    double product = random.nextDouble();
    int count = 0;
    while (product > limit) {
      product *= random.nextDouble();
      count++;
    }
    return count;
  }
}
