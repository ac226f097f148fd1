package limnostat.wire;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;

import com.fasterxml.jackson.core.JsonPointer;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.DoubleNode;
import com.fasterxml.jackson.databind.node.NullNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.fasterxml.jackson.databind.node.TextNode;
import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.stream.DoubleStream;
import limnostat.account.DoseAccount;
import limnostat.account.DoseTotals;
import limnostat.actuate.Modulator;
import limnostat.actuate.Output;
import limnostat.alarm.AlarmState;
import limnostat.alarm.Alarms;
import limnostat.alarm.Annunciator;
import limnostat.alarm.FirstOut;
import limnostat.alarm.Flood;
import limnostat.alarm.Shelf;
import limnostat.control.AcidTurn;
import limnostat.control.Beyond;
import limnostat.control.Capacity;
import limnostat.control.ControlLevel;
import limnostat.control.ControlState;
import limnostat.control.Doubt;
import limnostat.control.LeakyTimer;
import limnostat.control.Mode;
import limnostat.control.Plan;
import limnostat.control.SettledLevel;
import limnostat.control.Superchlorination;
import limnostat.estimate.Addition;
import limnostat.estimate.Additions;
import limnostat.estimate.CellOutput;
import limnostat.estimate.Consistency;
import limnostat.estimate.Dissolved;
import limnostat.estimate.Doubted;
import limnostat.estimate.Electrode;
import limnostat.estimate.EstimateState;
import limnostat.estimate.Estimator;
import limnostat.estimate.Gaussian;
import limnostat.estimate.HandMoves;
import limnostat.estimate.KitSteps;
import limnostat.estimate.Mixture;
import limnostat.estimate.Product;
import limnostat.estimate.Residual;
import limnostat.estimate.SlowAccount;
import limnostat.estimate.SunForecast;
import limnostat.estimate.SunOnWater;
import limnostat.estimate.TestDue;
import limnostat.estimate.TestLog;
import limnostat.estimate.TestVerdict;
import limnostat.estimate.UnfedChlorine;
import limnostat.measure.MeasureState;
import limnostat.measure.Role;
import limnostat.safety.AcidResponse;
import limnostat.safety.BlindFeed;
import limnostat.safety.Cause;
import limnostat.safety.Configured;
import limnostat.safety.Priority;
import limnostat.safety.ProcessWatch;
import limnostat.safety.Response;
import limnostat.safety.RunHealth;
import limnostat.safety.SafetyState;
import limnostat.scan.Answers;
import limnostat.scan.Calibrations;
import limnostat.scan.ManualEnd;
import limnostat.scan.OutputState;
import limnostat.scan.ScanState;
import limnostat.scan.StandingRequests;
import limnostat.scan.Still;
import limnostat.scan.TestSettings;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

class SavedStateTest {
  private static final JsonMapper PLAIN = new JsonMapper();

  private static final int STATES =
      Estimator.start(TestSettings.pool().estimate(), 3).belief().mean().length;

  private final Random random = new Random(4);

  private double any() {
    return switch (random.nextInt(8)) {
      case 0 -> Double.MIN_VALUE;
      case 1 -> 1e300 * random.nextDouble();
      case 2 -> Math.nextUp(1.0);
      case 3 -> 0.1 + 0.2;
      case 4 -> 1.0 / 3;
      default -> random.nextDouble();
    };
  }

  private double signed() {
    return random.nextBoolean() ? any() : -any();
  }

  private <T> T one(T[] values) {
    return Arrays.asList(values).get(random.nextInt(values.length));
  }

  private OutputState output() {
    double[] minutes = new double[1440];
    for (int i = 0; i < minutes.length; i++) {
      minutes[i] = random.nextInt(3) == 0 ? any() : 0;
    }
    return new OutputState(
        new Modulator.State(any(), any(), any(), signed()),
        new DoseAccount(any(), signed(), minutes, any(), any(), any(), any()));
  }

  private Gaussian belief() {
    int n = STATES;
    double[] covariance = new double[n * n];
    for (int i = 0; i < covariance.length; i++) {
      covariance[i] = i % (n + 1) == 0 ? any() : signed(); // the diagonal: variances
    }
    return new Gaussian(DoubleStream.generate(this::signed).limit(n).toArray(), covariance);
  }

  private ProcessWatch watched() {
    return new ProcessWatch(
        new Response(
            new Response.Window(any(), signed(), signed()),
            signed(),
            Double.POSITIVE_INFINITY,
            any(),
            any(),
            Double.NEGATIVE_INFINITY,
            signed(),
            any(),
            new Response.Trip(one(Response.Kind.values()), any(), signed()),
            random.nextBoolean()),
        new AcidResponse(
            any(),
            any(),
            any(),
            Double.POSITIVE_INFINITY,
            Double.NEGATIVE_INFINITY,
            any(),
            any(),
            signed(),
            any(),
            new AcidResponse.Trip(one(AcidResponse.Kind.values()), any(), any())),
        3600 * random.nextDouble(),
        new Configured(
            Map.of("limits.orp_high", "800 mV", "pool.volume", "50 m3"),
            List.of("pool.volume from 40 m3 to 50 m3"),
            3600 * random.nextDouble()));
  }

  private SlowAccount slow() {
    return new SlowAccount(
        dissolved(),
        dissolved(),
        dissolved(),
        dissolved(),
        any(),
        signed(),
        signed(),
        new SlowAccount.Pending(any(), any(), any()));
  }

  private Electrode electrode() {
    return new Electrode(1 + any(), one(Electrode.Trust.values()));
  }

  private Dissolved dissolved() {
    return new Dissolved(any(), any(), any());
  }

  /** A state of any values whatever, which no run would reach. */
  private ScanState state() {
    EnumSet<Cause> causes = EnumSet.noneOf(Cause.class);
    Map<Cause, Double> pending = new EnumMap<>(Cause.class);
    Map<Cause, Alarms.Entry> alarms = new EnumMap<>(Cause.class);
    for (Cause cause : Cause.values()) {
      if (random.nextBoolean()) {
        causes.add(cause);
        pending.put(cause, any());
        if (cause.priority() != Priority.NONE) {
          alarms.put(cause, alarm());
        }
      }
    }
    return new ScanState(
        one(ScanState.Phase.values()),
        MeasureState.START, // an age of infinity is in it
        new EstimateState(
            new Mixture(
                List.of(
                    new Mixture.Hypothesis(electrode(), belief(), signed(), signed()),
                    new Mixture.Hypothesis(electrode(), belief(), signed(), signed()))),
            belief(),
            new Residual(any(), any(), any(), any(), List.of(any(), any())),
            slow(),
            signed(),
            any(),
            -0.0,
            any(),
            new EstimateState.Fed(any(), new CellOutput(any(), any(), any())),
            new EstimateState.Window(any(), signed()),
            new Consistency(signed(), any(), any(), random.nextBoolean()),
            new TestLog(
                one(TestVerdict.values()),
                any(),
                any(),
                random.nextInt(5),
                new KitSteps(any()),
                random.nextBoolean(),
                any(),
                any(),
                new Doubted(any(), any(), any()),
                one(TestDue.values()))),
        new ControlState(
            one(Mode.values()),
            any(),
            any(),
            any(),
            signed(),
            random.nextBoolean(),
            signed(),
            new Plan(any(), any(), any(), any()),
            new Superchlorination(any(), any(), random.nextBoolean(), any()),
            new AcidTurn(any(), any()),
            new SettledLevel(one(ControlLevel.values()), any()),
            new Capacity(any(), any(), random.nextBoolean(), new LeakyTimer(any())),
            new Beyond(any()),
            new Doubt(
                new LeakyTimer(any()),
                new LeakyTimer(any()),
                new LeakyTimer(any()),
                new Beyond(any()))),
        new SafetyState(
            causes,
            EnumSet.complementOf(causes),
            pending,
            new EnumMap<>(Map.of(Output.CHLORINE, any(), Output.ACID, any())),
            new BlindFeed(random.nextBoolean(), any()),
            watched(),
            new RunHealth(
                List.of(
                    new RunHealth.End(any(), random.nextBoolean()), new RunHealth.End(0, false)),
                one(RunHealth.Owed.values()),
                any(),
                random.nextBoolean(),
                any(),
                random.nextBoolean(),
                any())),
        output(),
        output(),
        alarms,
        new SunOnWater(
            any(),
            any(),
            0.1 + any(),
            86_400 + any(),
            random.nextBoolean(),
            any(),
            random.nextBoolean(),
            random.nextBoolean(),
            new SunForecast(any(), List.of(0.1 + 0.2, 1.2, 0.0))),
        new Annunciator(
            new FirstOut(Set.of(Cause.PH_LOW), Set.of(Cause.PH_HIGH, Cause.WATER_HOT)),
            new Flood(random.nextBoolean(), List.of(any(), any()))),
        new DoseTotals(
            random.nextLong(),
            random.nextBoolean(),
            any(),
            new DoseTotals.Amounts(any(), any()),
            new DoseTotals.Amounts(any(), any()),
            new DoseTotals.Amounts(any(), any()),
            random.nextLong(),
            random.nextBoolean()),
        new StandingRequests(
            new Answers(List.of(new Answers.Answer("a", random.nextLong(), true, "remark", any()))),
            new ManualEnd(random.nextDouble() * 3600, one(Mode.values()), random.nextDouble()),
            new Calibrations(
                Map.of(
                    Role.PH_MV,
                    new Calibrations.Calibrated(
                        new Calibrations.Values(
                            random.nextDouble() * 30, 0.9 + random.nextDouble() / 10, any()),
                        new Calibrations.Values(signedOne(), any(), any()))),
                List.of(new Calibrations.PhPoint(any(), signedOne(), any())),
                Map.of(Role.ORP_MV, new Still(signedOne(), signedOne(), any()))),
            additions()));
  }

  private Additions additions() {
    return new Additions(
        List.of(addition(1, 0), addition(2, random.nextDouble())),
        2 + random.nextInt(90),
        signed(),
        any(),
        signed(),
        any(),
        random.nextBoolean() ? UnfedChlorine.NONE : new UnfedChlorine(any(), any(), any(), any()));
  }

  private Addition addition(long number, double share) {
    return new Addition(
        number,
        one(Product.values()),
        0.1 + any(),
        100 * random.nextDouble(),
        any(),
        any(),
        1 + any(),
        1 - share,
        share,
        signed(),
        new HandMoves(signed(), random.nextDouble(), random.nextDouble(), signed(), share),
        random.nextBoolean());
  }

  private double signedOne() {
    return random.nextGaussian();
  }

  private Alarms.Entry alarm() {
    return new Alarms.Entry(
        one(
            new AlarmState[] {
              AlarmState.NORMAL,
              AlarmState.UNACKNOWLEDGED,
              AlarmState.ACKNOWLEDGED,
              AlarmState.RETURNED_UNACKNOWLEDGED,
              AlarmState.LATCHED_UNACKNOWLEDGED,
              AlarmState.LATCHED
            }),
        any(),
        random.nextBoolean() ? Shelf.NONE : new Shelf(any(), any()),
        random.nextBoolean(),
        random.nextBoolean(),
        random.nextBoolean());
  }

  /** Records compare doubles bit by bit, −0.0 and infinity included. */
  @Test
  void comesBackBitByBit() throws IOException {
    for (int i = 0; i < 50; i++) {
      ScanState state = state();
      ScanState back = SavedState.read(SavedState.write(state));
      assertEquals(state, back);
      assertEquals(Double.NEGATIVE_INFINITY, 1 / back.estimate().waterC());
    }
  }

  @Test
  void theStartComesBack() throws IOException {
    ScanState start = ScanState.start(TestSettings.pool());
    ScanState back = SavedState.read(SavedState.write(start));
    assertEquals(start, back);
    assertArrayEquals(SavedState.write(start), SavedState.write(back));
  }

  private ObjectNode document() throws IOException {
    return (ObjectNode) PLAIN.readTree(SavedState.write(state()));
  }

  private static void assertRefused(JsonNode document, String what) throws IOException {
    byte[] bytes = PLAIN.writeValueAsBytes(document);
    assertThrows(IOException.class, () -> SavedState.read(bytes), what);
  }

  private static void set(ObjectNode document, String pointer, JsonNode value) {
    JsonPointer path = JsonPointer.compile(pointer);
    ObjectNode parent = (ObjectNode) document.at(path.head());
    assertFalse(parent.path(path.last().getMatchingProperty()).isMissingNode(), pointer);
    parent.set(path.last().getMatchingProperty(), value);
  }

  /** Every place in the document at which there is a value. */
  private static List<String> places(JsonNode node, String at) {
    List<String> places = new ArrayList<>();
    node.properties()
        .forEach(
            field -> {
              places.add(at + "/" + field.getKey());
              places.addAll(places(field.getValue(), at + "/" + field.getKey()));
            });
    for (int i = 0; i < node.size() && node.isArray(); i++) {
      places.addAll(places(node.get(i), at + "/" + i));
    }
    return places;
  }

  /** A null that got through would end the process at its next start, and every one after. */
  @Tag("slow")
  @Test
  void aNullAnywhereIsRefused() throws IOException {
    ObjectNode whole = document();
    for (String place : places(whole, "")) {
      ObjectNode document = whole.deepCopy();
      set(document, place, NullNode.instance);
      assertRefused(document, place + " null");
    }
  }

  @Tag("slow")
  @Test
  void aMissingFieldIsRefused() throws IOException {
    ObjectNode whole = document();
    for (String place : places(whole, "")) {
      JsonPointer path = JsonPointer.compile(place);
      boolean map =
          path.head()
              .toString()
              .matches(
                  "/alarms|/asked/calibrations/(made|still)|/safety/pendingS|/safety/sinceOnS|/safety/watched/configured/options");
      if (!map) {
        ObjectNode document = whole.deepCopy();
        ((ObjectNode) document.at(path.head())).remove(path.last().getMatchingProperty());
        assertRefused(document, place + " missing");
      }
    }
  }

  @Tag("slow")
  @Test
  void notANumberAnywhereIsRefused() throws IOException {
    ObjectNode whole = document();
    for (String place : places(whole, "")) {
      if (whole.at(place).isNumber()) {
        ObjectNode document = whole.deepCopy();
        set(document, place, new TextNode("NaN"));
        assertRefused(document, place + " NaN");
      }
    }
    ObjectNode document = whole.deepCopy();
    ((ArrayNode) document.at("/chlorine/account/minutes")).set(3, new TextNode("NaN"));
    assertRefused(document, "a minute NaN");
  }

  private static JsonNode twoStates() throws IOException {
    return PLAIN.readTree("{\"mean\":[0,0],\"covariance\":[1,0,0,1]}");
  }

  private static ArrayNode negativeVariance() {
    ArrayNode covariance = PLAIN.createArrayNode();
    for (int i = 0; i < STATES * STATES; i++) {
      covariance.add(i == 0 ? -1 : 0);
    }
    return covariance;
  }

  @Test
  void whatCannotBeIsRefused() throws IOException {
    ObjectNode whole = document();
    Map<String, JsonNode> wrong =
        new HashMap<>(
            Map.of(
                "/phase",
                new TextNode("ASLEEP"),
                "/estimate/belief/covariance",
                negativeVariance(),
                "/chlorine/account/given",
                new DoubleNode(-1),
                "/acid/account/hour",
                new TextNode("Infinity"),
                "/safety/active",
                PLAIN.readTree("[\"NO_SUCH_CAUSE\"]"),
                "/safety/present",
                PLAIN.readTree("[null]"),
                "/alarms",
                PLAIN.readTree("{\"NO_SUCH\":{\"under\":\"NORMAL\",\"pendingS\":0}}"),
                "/chlorine/account/minutes",
                PLAIN.readTree("[1,2,3]"),
                "/control/mode",
                new TextNode("auto"),
                "/control",
                PLAIN.createArrayNode()));
    wrong.put("/estimate/belief/mean", PLAIN.readTree("[0,1]"));
    wrong.put("/estimate/belief", twoStates());
    wrong.put("/estimate/mixture/hypotheses", PLAIN.createArrayNode());
    wrong.put("/estimate/mixture", PLAIN.readTree("{\"hypotheses\":[null]}"));
    wrong.put("/estimate/mixture/hypotheses/0/belief", twoStates());
    wrong.put("/estimate/mixture/hypotheses/1/belief/covariance", negativeVariance());
    wrong.put("/estimate/mixture/hypotheses/1/electrode/slopeMv", new DoubleNode(0));
    wrong.put("/estimate/mixture/hypotheses/1/byOrp", new TextNode("-Infinity"));
    wrong.put("/estimate/slow/stabiliser/mgL", new DoubleNode(-1));
    wrong.put("/safety/watched/functionCheckS", new DoubleNode(14_401));
    wrong.put("/safety/watched/configured/leftS", new DoubleNode(-1));
    wrong.put("/totals/now/chlorineG", new DoubleNode(-1));
    wrong.put("/totals/atSeason/acidMl", new TextNode("Infinity"));
    wrong.put("/safety/run/ends/0/agoS", new DoubleNode(-1));
    wrong.put("/safety/run/ends", PLAIN.readTree("[null]"));
    wrong.put("/sun/forecast/clearSkyFractions", PLAIN.readTree("[0.5,1.3]"));
    for (Map.Entry<String, JsonNode> field : wrong.entrySet()) {
      ObjectNode document = whole.deepCopy();
      set(document, field.getKey(), field.getValue());
      assertRefused(document, field.getKey());
    }
    ObjectNode more = whole.deepCopy();
    more.put("more", 1);
    assertRefused(more, "a field of another version");
  }

  @Test
  void whatIsNoDocumentIsRefused() {
    byte[] whole = SavedState.write(state());
    for (int length : new int[] {0, 1, whole.length / 2, whole.length - 1}) {
      assertThrows(
          IOException.class,
          () -> SavedState.read(Arrays.copyOf(whole, length)),
          length + " bytes");
    }
    assertThrows(IOException.class, () -> SavedState.read("null".getBytes(UTF_8)));
  }
}
