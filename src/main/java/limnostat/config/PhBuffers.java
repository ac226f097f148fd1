package limnostat.config;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import limnostat.measure.PhCalibration;
import limnostat.measure.ProbeHealth;
import org.tomlj.TomlArray;
import org.tomlj.TomlPosition;
import org.tomlj.TomlTable;

/** A two-point calibration of the pH electrode: what it read in two buffers. */
record PhBuffers() implements Form<PhBuffers.Pair> {

  /** The two buffers and what follows from them. */
  record Pair(Buffer first, Buffer second, PhCalibration calibration) {}

  /**
   * @param ph pH of the buffer at its temperature
   * @param potentialMv what the electrode read, mV
   * @param temperatureC temperature of the buffer, °C
   */
  record Buffer(double ph, double potentialMv, double temperatureC) {}

  private static final String EXAMPLE =
      "{ ph = 6.865, potential = \"5.0 mV\", temperature = \"25 degC\" }";

  private static final Map<String, Form<Double>> PARTS = parts();

  private static Map<String, Form<Double>> parts() {
    Map<String, Form<Double>> parts = new LinkedHashMap<>();
    parts.put("ph", PlainNumber.of(1, 13));
    parts.put("potential", Quantity.of(Dimension.POTENTIAL, "mV", -500, 500));
    parts.put("temperature", Quantity.of(Dimension.TEMPERATURE, "degC", 0, 50));
    return parts;
  }

  @Override
  public Optional<Pair> parse(Object toml, Refusals refusals) {
    if (!(toml instanceof TomlArray list) || list.size() != 2) {
      refusals.refuse(
          toml instanceof TomlArray array
              ? "has " + array.size() + " buffers"
              : "is " + Written.type(toml),
          limits(),
          "write two of " + EXAMPLE);
      return Optional.empty();
    }
    Optional<Buffer> first = buffer(list.get(0), refusals, "[0]");
    Optional<Buffer> second = buffer(list.get(1), refusals, "[1]");
    return first.flatMap(one -> second.flatMap(two -> pair(one, two, refusals)));
  }

  private static Optional<Buffer> buffer(Object toml, Refusals refusals, String index) {
    if (!(toml instanceof TomlTable table)) {
      refusals
          .within(refusals.position(), index)
          .refuse(Written.value(toml) + " is not a buffer", "", "write " + EXAMPLE);
      return Optional.empty();
    }
    Map<String, Double> values = new LinkedHashMap<>();
    for (String key : table.keySet()) {
      TomlPosition position = table.inputPositionOf(List.of(key));
      Refusals part = refusals.within(position, index + "." + key);
      Form<Double> form = PARTS.get(key);
      if (form == null) {
        part.refuse("unknown key", String.join(", ", PARTS.keySet()), "remove or rename it");
      } else {
        form.parse(table.get(List.of(key)), part).ifPresent(value -> values.put(key, value));
      }
    }
    for (String key : PARTS.keySet()) {
      if (!table.keySet().contains(key)) {
        refusals
            .within(refusals.position(), index + "." + key)
            .refuse("is missing", PARTS.get(key).limits(), "write " + EXAMPLE);
      }
    }
    return values.keySet().containsAll(PARTS.keySet())
        ? Optional.of(
            new Buffer(values.get("ph"), values.get("potential"), values.get("temperature")))
        : Optional.empty();
  }

  private static Optional<Pair> pair(Buffer one, Buffer two, Refusals refusals) {
    if (Math.abs(one.ph() - two.ph()) < PhCalibration.LEAST_PH_APART) {
      refusals.refuse(
          "the buffers pH "
              + Written.number(one.ph())
              + " and "
              + Written.number(two.ph())
              + " are too near each other",
          "at least " + Written.number(PhCalibration.LEAST_PH_APART) + " pH apart",
          "use two different buffers");
      return Optional.empty();
    }
    PhCalibration calibration = calibration(one, two);
    double slope = calibration.slopeFraction();
    if (!(slope >= ProbeHealth.SLOPE_MIN && slope <= ProbeHealth.SLOPE_MAX)) {
      refusals.refuse(
          String.format(
              Locale.ROOT, "the slope of %.2f %% of Nernst's is not believable", slope * 100),
          String.format(
              Locale.ROOT,
              "%.0f %% to %.0f %%",
              ProbeHealth.SLOPE_MIN * 100,
              ProbeHealth.SLOPE_MAX * 100),
          "check that the buffers are not swapped, then clean or replace the electrode");
      return Optional.empty();
    }
    if (Math.abs(calibration.offsetMv()) > ProbeHealth.PH_OFFSET_MAX_MV) {
      refusals.refuse(
          String.format(
              Locale.ROOT,
              "the offset of %.1f mV at pH 7 is not believable",
              calibration.offsetMv()),
          String.format(
              Locale.ROOT,
              "-%.0f mV to %.0f mV",
              ProbeHealth.PH_OFFSET_MAX_MV,
              ProbeHealth.PH_OFFSET_MAX_MV),
          "check the buffers, then clean or replace the electrode");
      return Optional.empty();
    }
    return Optional.of(new Pair(one, two, calibration));
  }

  static PhCalibration calibration(Buffer one, Buffer two) {
    return PhCalibration.of(point(one), point(two));
  }

  private static PhCalibration.Point point(Buffer buffer) {
    return new PhCalibration.Point(buffer.ph(), buffer.potentialMv(), buffer.temperatureC());
  }

  @Override
  public String limits() {
    return "a list of two buffers";
  }

  @Override
  public String show(Pair value) {
    return List.of(value.first(), value.second()).stream()
        .map(
            buffer ->
                String.format(
                    Locale.ROOT,
                    "{ ph = %s, potential = \"%s mV\", temperature = \"%s degC\" }",
                    Written.number(buffer.ph()),
                    Written.number(buffer.potentialMv()),
                    Written.number(buffer.temperatureC())))
        .collect(Collectors.joining(", ", "[", "]"));
  }
}
