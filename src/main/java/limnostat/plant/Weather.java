package limnostat.plant;

import java.time.LocalDate;
import java.util.Random;

/** Air temperature and rain. */
public final class Weather {
  private final Settings settings;
  private final Sky.Settings place;
  private final Random random;

  private double hour = Double.NEGATIVE_INFINITY;
  private double seasonC;
  private double airMassC;
  private double airC;
  private double rainMmH;

  /**
   * @param airMeanC yearly mean, °C
   * @param airSeasonC half of the yearly swing, °C
   * @param airDayC half of the swing on a fair day, °C
   * @param airMassSdC standard deviation of warm and cold spells, °C
   * @param rainChancePerH chance of rain in an hour under an overcast sky
   * @param rainMeanMmH mean intensity when it rains, mm/h
   */
  public record Settings(
      double airMeanC,
      double airSeasonC,
      double airDayC,
      double airMassSdC,
      double rainChancePerH,
      double rainMeanMmH) {}

  Weather(Settings settings, Sky.Settings place, Random random) {
    this.settings = settings;
    this.place = place;
    this.random = random;
  }

  void advanceTo(double unixTimeS, double cloudOctas) {
    double hourNow = StrictMath.floor(unixTimeS / 3600);
    if (hour == Double.NEGATIVE_INFINITY) {
      hour = hourNow - 1;
      airMassC = settings.airMassSdC * random.nextGaussian();
    }
    for (; hour < hourNow; hour++) {
      seasonC = seasonC((hour + 1) * 3600);
      double kept = StrictMath.exp(-1 / 60.0); // spells of some days [judgement]
      airMassC =
          airMassC * kept
              + settings.airMassSdC * StrictMath.sqrt(1 - kept * kept) * random.nextGaussian();
      // both numbers are drawn in every case, so that changing one setting shifts no other draw
      double chance = random.nextDouble();
      double intensityMmH = -settings.rainMeanMmH * StrictMath.log(1 - random.nextDouble());
      rainMmH = cloudOctas > 7 && chance < settings.rainChancePerH ? intensityMmH : 0;
    }
    double swingC = settings.airDayC * (1 - 0.6 * cloudOctas / 8);
    double solarHour = Sky.solarHour(unixTimeS, place.longitudeDeg());
    airC = seasonC + airMassC + swingC * StrictMath.cos(2 * StrictMath.PI * (solarHour - 15) / 24);
  }

  /** Mean air temperature of the season, °C; the maximum is a month after midsummer. */
  double seasonC(double unixTimeS) {
    long day = (long) StrictMath.floor(unixTimeS / 86_400);
    int warmestDay = place.latitudeDeg() >= 0 ? 202 : 20;
    double phase =
        2 * StrictMath.PI / 365.25 * (LocalDate.ofEpochDay(day).getDayOfYear() - warmestDay);
    return settings.airMeanC + settings.airSeasonC * StrictMath.cos(phase);
  }

  double airC() {
    return airC;
  }

  double rainMmH() {
    return rainMmH;
  }
}
