package limnostat.wire;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.time.DateTimeException;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.stream.Collectors;
import limnostat.control.Mode;
import limnostat.estimate.Glance;
import limnostat.estimate.Product;
import limnostat.estimate.TestKit;
import limnostat.estimate.Tested;
import limnostat.estimate.WaterTest;
import limnostat.measure.Role;
import limnostat.scan.Command;

/**
 * Reads command documents, both from MQTT and from {@code bench}. It is strict: an unknown field, a
 * wrong type or a missing field makes an {@link Command.Unreadable} with the reason. The scan
 * answers that with a refusal.
 */
public final class CommandReader {
  private CommandReader() {}

  /** Why a document is not a command; a clause for people. */
  private static final class Unusable extends Exception {
    private static final long serialVersionUID = 1L;

    Unusable(String reason) {
      super(reason);
    }
  }

  public static Command.Request read(byte[] document, String origin) {
    String text;
    try {
      text = StandardCharsets.UTF_8.newDecoder().decode(ByteBuffer.wrap(document)).toString();
    } catch (CharacterCodingException e) {
      return refused("not UTF-8, which JSON is sent in (RFC 8259)", document, origin);
    }
    try {
      return read(Json.MAPPER.readTree(text), origin);
    } catch (JsonProcessingException e) {
      return refused("not valid JSON: " + reason(e), document, origin);
    }
  }

  public static Command.Request read(JsonNode node, String origin) {
    if (node == null || !node.isObject()) {
      return refused("a command is a JSON object with a type", new byte[0], origin);
    }
    String document = node.toString();
    if (!Text.whole(document)) {
      return refused(
          "half a character, a surrogate without its other half, is in it",
          Text.mended(document).getBytes(StandardCharsets.UTF_8),
          origin);
    }
    String type = shortened(node.path("type").asText(""));
    Optional<String> requestId = Optional.empty();
    try {
      Fields fields = new Fields(node);
      requestId = fields.requestId();
      OptionalDouble sentUnixS =
          node.has("time") ? OptionalDouble.of(fields.time("time")) : OptionalDouble.empty();
      return new Command.Request(
          requestId, type, origin, document, command(type, fields), sentUnixS);
    } catch (Unusable e) {
      return new Command.Request(
          requestId, type, origin, document, new Command.Unreadable(e.getMessage()));
    }
  }

  /**
   * A refusal for a command that was dropped before it was read. The answer carries the type and
   * request id as far as they can be recovered.
   *
   * @param beginning the beginning of the document, or all of it
   */
  public static Command.Request refused(String reason, byte[] beginning, String origin) {
    Envelope envelope = Envelope.of(beginning);
    return new Command.Request(
        envelope.requestId(), envelope.type(), origin, "", new Command.Unreadable(reason));
  }

  /** The library's error message, without its advice to programmers. */
  private static String reason(JsonProcessingException e) {
    return e.getOriginalMessage().replaceAll(": enable `[^`]*` to allow|, from `[^`]*`", "");
  }

  private static Command command(String type, Fields fields) throws Unusable {
    Command command =
        switch (type) {
          case "mode" ->
              new Command.SetMode(
                  mode(fields.text("mode")),
                  fields.optional("duty"),
                  seconds(fields.optional("minutes")));
          case "target" -> new Command.SetTarget(fields.number("free_chlorine_mg_l"));
          case "test_result" -> new Command.Test(test(fields));
          case "addition" -> addition(fields);
          case "addition_undo" -> new Command.UndoAddition(fields.id("addition"));
          case "addition_list" -> new Command.ListAdditions();
          case "superchlorinate" ->
              new Command.Superchlorinate(
                  fields.number("free_chlorine_mg_l"),
                  3600 * fields.optional("max_hours").orElse(12));
          case "sun_forecast" ->
              new Command.ForecastSun(fields.time("from"), fields.numbers("clear_sky_fraction"));
          case "function_check" -> new Command.FunctionCheck(60 * fields.number("minutes"));
          case "calibrate" -> calibrate(fields);
          case "calibrate_undo" -> new Command.CalibrateUndo(probe(fields));
          case "acknowledge" -> new Command.Acknowledge(fields.id("alarm"));
          case "alarm_shelve" -> new Command.Shelve(fields.id("alarm"), shelf(fields));
          case "alarm_unshelve" -> new Command.Unshelve(fields.id("alarm"));
          case "season_reset" -> new Command.ResetSeason();
          case "reset" -> new Command.Reset(fields.id("interlock"));
          default ->
              throw new Unusable(
                  "unknown type; it is one of mode, target, test_result, superchlorinate,"
                      + " sun_forecast, function_check, calibrate, calibrate_undo, acknowledge,"
                      + " alarm_shelve, alarm_unshelve, reset, addition, addition_undo,"
                      + " addition_list");
        };
    fields.refuseOthers();
    return command;
  }

  private static Mode mode(String key) throws Unusable {
    return Arrays.stream(Mode.values())
        .filter(mode -> mode.key().equals(key))
        .findFirst()
        .orElseThrow(() -> new Unusable("mode is one of auto, manual, off"));
  }

  private static OptionalDouble seconds(OptionalDouble minutes) {
    return minutes.isPresent() ? OptionalDouble.of(60 * minutes.getAsDouble()) : minutes;
  }

  private static Command calibrate(Fields fields) throws Unusable {
    return probe(fields) == Role.PH_MV
        ? new Command.CalibratePh(fields.number("ph"), fields.number("temperature_c"))
        : new Command.CalibrateOrp(fields.number("orp_mv"));
  }

  private static Role probe(Fields fields) throws Unusable {
    return switch (fields.text("probe")) {
      case "ph" -> Role.PH_MV;
      case "orp" -> Role.ORP_MV;
      default -> throw new Unusable("probe is one of ph, orp");
    };
  }

  /** How long to shelve, s. */
  private static double shelf(Fields fields) throws Unusable {
    OptionalDouble seconds = fields.optional("seconds");
    OptionalDouble minutes = fields.optional("minutes");
    if (seconds.isPresent() == minutes.isPresent()) {
      throw new Unusable("either seconds or minutes is wanted, a number");
    }
    return seconds.orElseGet(() -> 60 * minutes.getAsDouble());
  }

  private static Command addition(Fields fields) throws Unusable {
    String key = fields.text("what");
    Product product =
        Product.ofKey(key)
            .orElseThrow(
                () ->
                    new Unusable(
                        "what is one of "
                            + Arrays.stream(Product.values())
                                .map(Product::key)
                                .collect(Collectors.joining(", "))));
    double amount = amount(product, fields);
    OptionalDouble ago = fields.optional("ago_minutes");
    OptionalDouble at = fields.optionalTime("at");
    if (ago.isPresent() && at.isPresent()) {
      throw new Unusable("either at or ago_minutes, not both");
    }
    return new Command.Add(product, amount, fields.optional("strength_percent"), seconds(ago), at);
  }

  /** An amount, given directly or as a number of packs of a stated size. */
  private static double amount(Product product, Fields fields) throws Unusable {
    String unit =
        switch (product.measure()) {
          case G -> "g";
          case ML -> "ml";
          case L -> "l";
        };
    OptionalDouble amount = fields.optional("amount_" + unit);
    if (product.water()) {
      return amount.orElseThrow(() -> new Unusable("amount_l is wanted, a number"));
    }
    OptionalDouble packs = fields.optional("packs");
    OptionalDouble pack = fields.optional("pack_" + unit);
    if (amount.isPresent() == packs.isPresent() || packs.isPresent() != pack.isPresent()) {
      throw new Unusable(
          product.key() + " wants either amount_" + unit + ", or packs and pack_" + unit);
    }
    return amount.orElseGet(() -> packs.getAsDouble() * pack.getAsDouble());
  }

  private static WaterTest test(Fields fields) throws Unusable {
    Map<Tested, Double> values = new EnumMap<>(Tested.class);
    for (Tested quantity : Tested.values()) {
      fields.optional(quantity.key()).ifPresent(value -> values.put(quantity, value));
    }
    WaterTest test = new WaterTest(values, kit(fields), glance(fields));
    if (!fields.anyNumber() && test.glance().isEmpty()) {
      throw new Unusable("a test_result has at least one value");
    }
    if (test.glance().isPresent()
        && (test.freeChlorineMgL().isPresent()
            || test.combinedChlorineMgL().isPresent()
            || test.totalChlorineMgL().isPresent()
            || test.kit().isPresent())) {
      throw new Unusable(
          "free_chlorine_quick goes without kit and without a value of free, combined or total"
              + " chlorine");
    }
    return test;
  }

  private static Optional<Glance> glance(Fields fields) throws Unusable {
    Optional<String> key = fields.optionalText("free_chlorine_quick");
    if (key.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(
        Glance.ofKey(key.get())
            .orElseThrow(() -> new Unusable("free_chlorine_quick is one of none, little, plenty")));
  }

  private static Optional<TestKit> kit(Fields fields) throws Unusable {
    Optional<String> key = fields.optionalText("kit");
    if (key.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(
        TestKit.ofKey(key.get())
            .orElseThrow(
                () ->
                    new Unusable(
                        "kit is one of "
                            + TestKit.NAMED.stream()
                                .map(TestKit::key)
                                .collect(Collectors.joining(", ")))));
  }

  /** The fields of one document. It remembers which of them were read. */
  private static final class Fields {
    private final JsonNode node;
    private final Set<String> known = new HashSet<>(Set.of("type", "request_id"));
    private boolean anyNumber;

    Fields(JsonNode node) {
      this.node = node;
    }

    String text(String name) throws Unusable {
      known.add(name);
      if (!node.path(name).isTextual()) {
        throw new Unusable(name + " is wanted, a text");
      }
      return node.path(name).textValue();
    }

    /** Empty if it is null or missing. */
    Optional<String> optionalText(String name) throws Unusable {
      known.add(name);
      JsonNode value = node.path(name);
      if (value.isMissingNode() || value.isNull()) {
        return Optional.empty();
      }
      if (!value.isTextual()) {
        throw new Unusable(name + " is a text");
      }
      return Optional.of(value.textValue());
    }

    /** A text that a refusal may quote, shortened. No valid id is long enough to be cut. */
    String id(String name) throws Unusable {
      return shortened(text(name));
    }

    /** The id as text; empty if it is null or missing. */
    Optional<String> requestId() throws Unusable {
      JsonNode value = node.path("request_id");
      if (value.isMissingNode() || value.isNull()) {
        return Optional.empty();
      }
      if (!value.isTextual() && !value.isIntegralNumber()) {
        throw new Unusable("request_id is a text or a whole number");
      }
      return Optional.of(shortened(value.asText()));
    }

    double number(String name) throws Unusable {
      return optional(name).orElseThrow(() -> new Unusable(name + " is wanted, a number"));
    }

    OptionalDouble optional(String name) throws Unusable {
      known.add(name);
      JsonNode value = node.path(name);
      if (value.isMissingNode() || value.isNull()) {
        return OptionalDouble.empty();
      }
      if (!value.isNumber() || !Double.isFinite(value.doubleValue())) {
        throw new Unusable(name + " is a number");
      }
      anyNumber = true;
      return OptionalDouble.of(value.doubleValue());
    }

    /** An ISO 8601 time with its zone, as Unix s. */
    double time(String name) throws Unusable {
      String text = text(name);
      try {
        return OffsetDateTime.parse(text).toEpochSecond();
      } catch (DateTimeException e) {
        throw new Unusable(
            name
                + " "
                + shortened(text)
                + " is no time with its zone, as 2026-06-01T10:00:00Z or 2026-06-01T12:00:00+02:00");
      }
    }

    OptionalDouble optionalTime(String name) throws Unusable {
      return optionalText(name).isPresent()
          ? OptionalDouble.of(time(name))
          : OptionalDouble.empty();
    }

    List<Double> numbers(String name) throws Unusable {
      known.add(name);
      JsonNode values = node.path(name);
      if (!values.isArray()) {
        throw new Unusable(name + " is wanted, an array of numbers");
      }
      List<Double> numbers = new ArrayList<>();
      for (JsonNode value : values) {
        if (!value.isNumber() || !Double.isFinite(value.doubleValue())) {
          throw new Unusable(name + " is an array of numbers");
        }
        numbers.add(value.doubleValue());
      }
      return numbers;
    }

    boolean anyNumber() {
      return anyNumber;
    }

    void refuseOthers() throws Unusable {
      List<String> others = new ArrayList<>();
      node.fieldNames()
          .forEachRemaining(
              name -> {
                if (!known.contains(name)) {
                  others.add(name);
                }
              });
      if (!others.isEmpty()) {
        throw new Unusable(
            "unknown field "
                + others.stream()
                    .limit(3)
                    .map(CommandReader::shortened)
                    .collect(Collectors.joining(", ")));
      }
    }
  }

  private static String shortened(String text) {
    return Text.shortened(text);
  }
}
