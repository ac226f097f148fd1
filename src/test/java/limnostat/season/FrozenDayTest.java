package limnostat.season;

import static org.junit.jupiter.api.Assertions.assertEquals;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import java.io.IOException;
import java.lang.reflect.RecordComponent;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import limnostat.actuate.Outputs;
import limnostat.estimate.WaterTest;
import limnostat.plant.Pool;
import limnostat.scan.ScanState;
import limnostat.wire.SavedState;
import limnostat.wire.StateMigration;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/**
 * The decisions of a simulated day on eight strange pools, and a saved state, as they were. A
 * change that is meant to change no decision keeps both; one that is meant to says so and renews
 * them with {@code -Dlimnostat.freeze=true}. The digest knows values and their order, and neither
 * names nor words.
 */
class FrozenDayTest {
  private static final Path FOLDER = Path.of("src/test/resources/limnostat/frozen");
  private static final Path DIGESTS = FOLDER.resolve("outcomes.txt");
  private static final Path STATE = FOLDER.resolve("state.json");
  private static final boolean FREEZE = Boolean.getBoolean("limnostat.freeze");
  private static final int POOLS = 8;
  private static final double STEP_S = 10;

  /** Of every so many scans the whole outcome is looked at: a state has thousands of numbers. */
  private static final int WHOLE_EACH = 60;

  @Test
  @Tag("slow")
  void aDayIsDecidedAsBefore() throws Exception {
    List<String> digests = new ArrayList<>();
    for (int number = 1; number <= POOLS; number++) {
      Site site = site(number);
      Digest digest = new Digest();
      day(site, digest);
      digests.add(number + " " + digest);
    }
    if (FREEZE) {
      Files.write(DIGESTS, digests);
    }
    assertEquals(Files.readAllLines(DIGESTS), digests);
  }

  @Test
  void aStateThatWasSavedIsReadWhole() throws IOException {
    Site site = site(1);
    if (FREEZE) {
      Files.write(STATE, SavedState.write(day(site, new Digest())));
    }
    byte[] frozen = Files.readAllBytes(STATE);
    StateMigration read = StateMigration.read(frozen, ScanState.start(site.configured()));
    assertEquals(List.of(), read.lost());
    byte[] again = SavedState.write(read.state());
    assertEquals(tree(renamed(frozen)), tree(again));
    assertEquals(tree(again), tree(SavedState.write(SavedState.read(again))));
  }

  /** The frozen state in the names of today. */
  private static byte[] renamed(byte[] document) {
    String text = new String(document, StandardCharsets.UTF_8);
    return text.replace("\"ladder\":", "\"level\":")
        .replace("\"rung\":", "\"settled\":")
        .replace("\"toldSdMgL\":", "\"enteredSdMgL\":")
        .getBytes(StandardCharsets.UTF_8);
  }

  /** Without the order of what has none: names of a map, words of a set. */
  private static JsonNode tree(byte[] document) throws IOException {
    JsonNode tree = new JsonMapper().readTree(document);
    sort(tree);
    return tree;
  }

  private static void sort(JsonNode tree) {
    tree.forEach(FrozenDayTest::sort);
    if (tree instanceof ArrayNode array && !array.isEmpty() && array.get(0).isTextual()) {
      List<JsonNode> words = new ArrayList<>();
      array.forEach(words::add);
      words.sort(Comparator.comparing(JsonNode::asText));
      array.removeAll().addAll(words);
    }
  }

  private static Site site(int number) {
    SeasonSettings season =
        new SeasonSettings(POOLS, 1, 20270401, Spread.STRANGE, false, Set.of(), STEP_S);
    return SiteDraw.site(season, number, 1000 + number);
  }

  /** From six in the morning, with a test at nine. */
  private static ScanState day(Site site, Digest digest) {
    Pool pool = site.open();
    Program program = new Program(site.configured());
    for (int i = 0; i < 86_400 / STEP_S; i++) {
      double unixTimeS = site.startUnixS() + i * STEP_S;
      Optional<KitTest> test =
          i == 9 * 360 ? Optional.of(site.kit().test(pool.truth())) : Optional.empty();
      Outputs outputs = program.step(unixTimeS, i == 0 ? 0 : STEP_S, pool.signals(), test);
      digest.add(program.lastOutcome().outputs());
      digest.add(program.lastOutcome().demand());
      if (i % WHOLE_EACH == 0) {
        digest.add(program.lastOutcome());
      }
      pool.advance(unixTimeS + STEP_S, outputs);
    }
    return program.lastOutcome().state();
  }

  /** SHA-256 of all numbers, choices and truth values in a record, in their order. */
  private static final class Digest {
    private final MessageDigest digest;

    Digest() {
      try {
        digest = MessageDigest.getInstance("SHA-256");
      } catch (NoSuchAlgorithmException e) {
        throw new IllegalStateException(e);
      }
    }

    void add(Object value) {
      if (value instanceof WaterTest) {
        return; // what a person entered is no decision
      }
      if (value instanceof Record object) {
        for (RecordComponent component : object.getClass().getRecordComponents()) {
          add(read(object, component));
        }
      } else if (value instanceof Map<?, ?> map) {
        put("" + map.size());
        map.entrySet().stream()
            .sorted((a, b) -> order(a.getKey()).compareTo(order(b.getKey())))
            .forEach(entry -> add(entry.getValue()));
      } else if (value instanceof Set<?> set) {
        put("" + set.size());
        set.stream().map(Digest::order).sorted().forEach(this::put);
      } else if (value instanceof Iterable<?> list) {
        list.forEach(this::add);
      } else if (value instanceof Optional<?> optional) {
        put("" + optional.isPresent());
        optional.ifPresent(this::add);
      } else if (value instanceof OptionalDouble optional) {
        put("" + optional.isPresent());
        optional.ifPresent(this::add);
      } else if (value instanceof double[] array) {
        for (double number : array) {
          add(number);
        }
      } else if (value instanceof Double number) {
        digest.update(ByteBuffer.allocate(8).putDouble(number).array());
      } else if (value instanceof Enum<?> || value instanceof Number || value instanceof Boolean) {
        put(order(value));
      }
    }

    @SuppressWarnings("EnumOrdinal") // a choice keeps its place under another name
    private static String order(Object value) {
      return value instanceof Enum<?> choice
          ? String.format("%04d", choice.ordinal())
          : value.toString();
    }

    private static Object read(Record object, RecordComponent component) {
      try {
        component.getAccessor().setAccessible(true);
        return component.getAccessor().invoke(object);
      } catch (ReflectiveOperationException e) {
        throw new IllegalStateException(component.toString(), e);
      }
    }

    private void put(String text) {
      digest.update(text.getBytes(StandardCharsets.UTF_8));
      digest.update((byte) 0);
    }

    @Override
    public String toString() {
      return HexFormat.of().formatHex(digest.digest());
    }
  }
}
