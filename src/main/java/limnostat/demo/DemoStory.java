package limnostat.demo;

import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import limnostat.estimate.Tested;
import limnostat.estimate.WaterTest;
import limnostat.field.SimulatedField;
import limnostat.measure.Role;
import limnostat.plant.PlantFault;
import limnostat.plant.PlantFault.Span;
import limnostat.plant.Pool;
import limnostat.scan.Command;

/** The events of a demo's first day, in addition to weather and people. An invented scenario. */
final class DemoStory {
  private static final double FLOW_LOST_S = 20 * 60;
  private static final double UNPLUGGED_S = 45 * 60;

  /** What a scene does to the field. The commands are those that a person sends. */
  private interface Play {
    List<Command.Request> on(SimulatedField field, Pool pool, double nowUnixS);
  }

  /**
   * One event.
   *
   * @param text what is shown to people
   */
  record Scene(double atUnixS, String text, Play play) {
    List<Command.Request> play(SimulatedField field, Pool pool, double nowUnixS) {
      return play.on(field, pool, nowUnixS);
    }
  }

  private final List<Scene> coming = new ArrayList<>();

  DemoStory(LocalDate day, ZoneId zone) {
    add(day, zone, "09:30", "a person tests the water and enters the result", DemoStory::test);
    add(
        day,
        zone,
        "11:00",
        "FAULT, on purpose: flow is lost for 20 minutes",
        (field, pool, now) -> {
          field.inject(new PlantFault.FlowLost(new Span(now, now + FLOW_LOST_S)));
          return List.of();
        });
    add(day, zone, "11:20", "the flow is back", (field, pool, now) -> List.of());
    add(
        day,
        zone,
        "14:00",
        "FAULT, on purpose: the ORP probe is unplugged for 45 minutes",
        (field, pool, now) -> {
          field.inject(new PlantFault.Unplugged(Role.ORP_MV, new Span(now, now + UNPLUGGED_S)));
          return List.of();
        });
    add(day, zone, "14:45", "the ORP probe is back", (field, pool, now) -> List.of());
    add(
        day,
        zone,
        "15:30",
        "a person acknowledges the alarm of the probe",
        (field, pool, now) -> List.of(acknowledge("orp_failure")));
    // The other alarm stays active until then, so that a client that subscribes within the first
    // minute sees one.
    add(
        day.plusDays(1),
        zone,
        "07:30",
        "a person acknowledges the alarm of the flow",
        (field, pool, now) -> List.of(acknowledge("flow_missing")));
  }

  private void add(LocalDate day, ZoneId zone, String time, String text, Play play) {
    coming.add(
        new Scene(
            (double) day.atTime(LocalTime.parse(time)).atZone(zone).toEpochSecond(), text, play));
  }

  /** The scenes that are due; each is returned once. */
  List<Scene> due(double nowUnixS) {
    List<Scene> due = coming.stream().filter(scene -> scene.atUnixS() <= nowUnixS).toList();
    coming.removeAll(due);
    return due;
  }

  private static Command.Request acknowledge(String alarm) {
    String document = "{\"type\":\"acknowledge\",\"alarm\":\"" + alarm + "\"}";
    return new Command.Request(
        Optional.empty(), "acknowledge", "demo", document, new Command.Acknowledge(alarm));
  }

  private static List<Command.Request> test(SimulatedField field, Pool pool, double nowUnixS) {
    limnostat.plant.WaterTest kit = pool.test((long) nowUnixS);
    WaterTest test =
        WaterTest.EMPTY.with(Tested.FREE_CHLORINE, kit.freeChlorineMgL()).with(Tested.PH, kit.ph());
    String document =
        String.format(
            Locale.ROOT,
            "{\"type\":\"test_result\",\"free_chlorine_mg_l\":%.2f,\"ph\":%.2f}",
            kit.freeChlorineMgL(),
            kit.ph());
    return List.of(
        new Command.Request(
            Optional.empty(), "test_result", "demo", document, new Command.Test(test)));
  }
}
