package limnostat.field;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.concurrent.atomic.AtomicInteger;
import limnostat.actuate.Outputs;
import limnostat.measure.Role;
import limnostat.measure.Signal;
import limnostat.plant.PlantFault;
import limnostat.plant.PlantSettings;
import limnostat.plant.Pool;
import org.junit.jupiter.api.Test;

class SimulatedFieldTest {
  private static final double START = 1_782_864_000.0;
  private static final Outputs FEED = new Outputs(1, 0, true);

  private final Pool pool = new Pool(PlantSettings.domestic(1), START);
  private final SimulatedField field = new SimulatedField(pool);

  @Test
  void movesThePoolByMonotonicTimeOnly() {
    field.read(5000, START);
    assertEquals(START, pool.unixTimeS());
    field.read(5010, START - 1e6); // the wall clock falls back
    assertEquals(START + 10, pool.unixTimeS());
    field.read(5010, START + 1e6);
    assertEquals(START + 10, pool.unixTimeS());
  }

  @Test
  void countsItsBeats() {
    assertEquals(0, field.beats());
    field.beat();
    field.beat();
    assertEquals(2, field.beats());
    field.off();
    assertEquals(2, field.beats());
  }

  @Test
  void outputsHoldUntilTheNextReadAndOffEndsThem() {
    field.read(0, START);
    field.write(FEED);
    field.read(360, START + 360);
    double givenG = pool.truth().chlorineGivenG();
    assertEquals(18.4 / 10, givenG, 0.1); // 20 g/h by the label, 0.92 of it in truth
    field.off();
    field.read(720, START + 720);
    assertEquals(givenG, pool.truth().chlorineGivenG());
    assertEquals(new Signal.Contact(false), pool.signals().of(Role.PUMP_ON));
  }

  @Test
  void closeTurnsOff() {
    field.read(0, START);
    field.write(FEED);
    field.close();
    field.read(60, START + 60);
    assertEquals(0, pool.truth().chlorineGivenG());
  }

  @Test
  void tellsEveryChangeOfFlow() {
    AtomicInteger edges = new AtomicInteger();
    field.onFlowEdge(edges::incrementAndGet);
    field.read(0, START);
    field.read(1, START + 1);
    assertEquals(0, edges.get());
    field.write(FEED);
    field.read(2, START + 2);
    assertEquals(1, edges.get(), "the pump starts");
    field.write(Outputs.OFF);
    field.read(3, START + 3);
    assertEquals(2, edges.get(), "the pump stops");
  }

  @Test
  void injectedLossOfFlowIsToldAtOnceAndReadNext() {
    AtomicInteger edges = new AtomicInteger();
    field.read(0, START);
    field.write(FEED);
    field.read(10, START + 10);
    field.onFlowEdge(edges::incrementAndGet);
    double now = field.poolUnixTimeS();
    field.inject(new PlantFault.FlowLost(new PlantFault.Span(now, now + 60)));
    assertEquals(1, edges.get());
    assertEquals(new Signal.Contact(false), field.read(10.1, START + 10.1).of(Role.FLOW));
    assertTrue(edges.get() >= 1);
    assertEquals(new Signal.Contact(true), field.read(75, START + 75).of(Role.FLOW));
  }
}
