package limnostat.config;

import java.nio.file.Path;
import java.util.List;

/** A quantity with its unit from the command line, read like one from the option file. */
public final class Argument {
  private Argument() {}

  /** Water volume, m³, from {@code "50 m3"}, {@code "50000 L"} or {@code "13500 gal"} (US). */
  public static double volumeM3(String option, String text) {
    return read(option, text, Quantity.of(Dimension.VOLUME, "m3", 0.1, 5000));
  }

  /** Water temperature, °C, from {@code "28 degC"} or {@code "82 degF"}. */
  public static double temperatureC(String option, String text) {
    return read(option, text, Quantity.of(Dimension.TEMPERATURE, "degC", 0, 40));
  }

  /** A mass, g, from {@code "2 lb"} or {@code "500 g"}. */
  public static double massG(String option, String text) {
    return read(option, text, Quantity.of(Dimension.MASS, "g", 0.1, 1e8));
  }

  /** A liquid volume, mL, from {@code "1 gal"} or {@code "2.5 L"}. */
  public static double liquidMl(String option, String text) {
    return read(option, text, Quantity.of(Dimension.LIQUID, "mL", 0.1, 1e8));
  }

  /** A volume of water, L, from {@code "3 m3"}, {@code "500 L"} or {@code "800 gal"}. */
  public static double waterL(String option, String text) {
    return 1000 * read(option, text, Quantity.of(Dimension.VOLUME, "m3", 0.0001, 5000));
  }

  /** How long ago, s, from {@code "90 min"} or {@code "2 h"}; at most one day. */
  public static double agoS(String option, String text) {
    return read(option, text, Quantity.of(Dimension.TIME, "h", 0, 24));
  }

  /**
   * @throws IllegalArgumentException its message names the option, the fault and the remedy
   */
  private static double read(String option, String text, Quantity form) {
    Errors errors = new Errors(Path.of("command line"));
    return form.parse(text, errors.of(Errors.START, option))
        .orElseThrow(() -> new IllegalArgumentException(message(errors)));
  }

  private static String message(Errors errors) {
    List<ConfigurationError> found = List.of();
    try {
      errors.throwIfAny();
    } catch (ConfigurationException e) {
      found = e.errors();
    }
    ConfigurationError first = found.get(0);
    return first.key() + ": " + first.what() + "; " + first.limit() + "; " + first.mend();
  }
}
