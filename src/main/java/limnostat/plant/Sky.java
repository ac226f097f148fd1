package limnostat.plant;

import java.time.LocalDate;
import java.util.Random;

/** Sun and clouds over the pool. */
public final class Sky {
  /** Sine of the sun's elevation at summer noon at 47° N, where the photolysis was measured. */
  private static final double REFERENCE_SINE = StrictMath.sin(StrictMath.toRadians(66.4));

  private final Settings settings;
  private final Random random;

  private double hour = Double.NEGATIVE_INFINITY;
  private double spellState;
  private double passingState;
  private double cloudAtHourOctas;
  private double cloudNextHourOctas;

  private double cloudOctas;
  private double solarWM2;
  private double ultravioletFraction;

  /**
   * @param latitudeDeg north positive
   * @param longitudeDeg east positive
   * @param cloudiness bias of the cloud cover: 0 half covered on average, -1 mostly fair, +1 mostly
   *     overcast, -40 never a cloud
   * @param spell variation between fair and overcast spells of some days, same scale
   * @param passing variation of cloud over hours, same scale
   */
  public record Settings(
      double latitudeDeg, double longitudeDeg, double cloudiness, double spell, double passing) {}

  Sky(Settings settings, Random random) {
    this.settings = settings;
    this.random = random;
  }

  void advanceTo(double unixTimeS) {
    double hourNow = StrictMath.floor(unixTimeS / 3600);
    if (hour == Double.NEGATIVE_INFINITY) {
      hour = hourNow - 1;
      spellState = random.nextGaussian();
      passingState = random.nextGaussian();
      cloudNextHourOctas = drawCloudOctas();
    }
    for (; hour < hourNow; hour++) {
      cloudAtHourOctas = cloudNextHourOctas;
      cloudNextHourOctas = drawCloudOctas();
    }
    double within = unixTimeS / 3600 - hour;
    cloudOctas = cloudAtHourOctas + (cloudNextHourOctas - cloudAtHourOctas) * within;
    double sineOfHeight = sineOfHeight(unixTimeS, settings.latitudeDeg, settings.longitudeDeg);
    solarWM2 = solarWM2(sineOfHeight, cloudOctas);
    ultravioletFraction = ultravioletFraction(sineOfHeight, cloudOctas);
  }

  /**
   * Two autoregressive processes with hourly steps: spells of 40 h and passing cloud of 3 h
   * [judgement].
   */
  private double drawCloudOctas() {
    double spellKept = StrictMath.exp(-1 / 40.0);
    double passingKept = StrictMath.exp(-1 / 3.0);
    spellState =
        spellState * spellKept + StrictMath.sqrt(1 - spellKept * spellKept) * random.nextGaussian();
    passingState =
        passingState * passingKept
            + StrictMath.sqrt(1 - passingKept * passingKept) * random.nextGaussian();
    double lean =
        2 * settings.cloudiness + settings.spell * spellState + settings.passing * passingState;
    return 8 / (1 + StrictMath.exp(-lean));
  }

  /** Short NOAA form [checked], ±0.6°, in UTC throughout. */
  static double sineOfHeight(double unixTimeS, double latitudeDeg, double longitudeDeg) {
    double day = StrictMath.floor(unixTimeS / 86_400);
    double minutes = (unixTimeS - day * 86_400) / 60;
    int dayOfYear = LocalDate.ofEpochDay((long) day).getDayOfYear();
    double g = 2 * StrictMath.PI / 365 * (dayOfYear - 1 + (minutes / 60 - 12) / 24);
    double cos = StrictMath.cos(g);
    double sin = StrictMath.sin(g);
    double cos2 = cos * cos - sin * sin;
    double sin2 = 2 * sin * cos;
    double cos3 = cos2 * cos - sin2 * sin;
    double sin3 = sin2 * cos + cos2 * sin;
    double equationMin =
        229.18 * (0.000075 + 0.001868 * cos - 0.032077 * sin - 0.014615 * cos2 - 0.040849 * sin2);
    double declination =
        0.006918
            - 0.399912 * cos
            + 0.070257 * sin
            - 0.006758 * cos2
            + 0.000907 * sin2
            - 0.002697 * cos3
            + 0.00148 * sin3;
    double hourAngle = StrictMath.toRadians((minutes + equationMin + 4 * longitudeDeg) / 4 - 180);
    double latitude = StrictMath.toRadians(latitudeDeg);
    return StrictMath.sin(latitude) * StrictMath.sin(declination)
        + StrictMath.cos(latitude) * StrictMath.cos(declination) * StrictMath.cos(hourAngle);
  }

  /** Hour of the solar day, 0–24, without the equation of time. */
  static double solarHour(double unixTimeS, double longitudeDeg) {
    double hours = unixTimeS / 3600 + longitudeDeg / 15;
    return hours - 24 * StrictMath.floor(hours / 24);
  }

  double cloudOctas() {
    return cloudOctas;
  }

  /** Global radiation, W/m². */
  double solarWM2() {
    return solarWM2;
  }

  /**
   * Kasten and Czeplak (1980) [memory]: clear sky {@code 910 sin h - 30}, cloud {@code 1 - 0.75
   * (N/8)^3.4}.
   */
  static double solarWM2(double sineOfHeight, double cloudOctas) {
    double clearWM2 = 910 * sineOfHeight - 30;
    return clearWM2 <= 0 ? 0 : clearWM2 * (1 - 0.75 * coverFactor(cloudOctas));
  }

  /**
   * Ultraviolet radiation as a ratio to a clear summer noon at 47° N. Towards the horizon it falls
   * faster than visible light, and it passes through cloud better. Power and cloud factor are
   * [judgement].
   */
  double ultravioletFraction() {
    return ultravioletFraction;
  }

  private static double ultravioletFraction(double sineOfHeight, double cloudOctas) {
    if (sineOfHeight <= 0) {
      return 0;
    }
    double ratio = sineOfHeight / REFERENCE_SINE;
    return ratio * StrictMath.sqrt(ratio) * (1 - 0.6 * coverFactor(cloudOctas));
  }

  private static double coverFactor(double cloudOctas) {
    return StrictMath.pow(cloudOctas / 8, 3.4);
  }
}
