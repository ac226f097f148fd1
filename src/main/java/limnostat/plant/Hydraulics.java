package limnostat.plant;

import java.util.List;
import java.util.Set;

/**
 * The flow of water: from the pool through the line with filter and probes, past the dosing point
 * into the return line, and through the inlet into the zone that mixes with the rest.
 */
public final class Hydraulics {
  /** The rest of the pool, from which the suction draws. */
  final Water bulk;

  /** The zone at the inlet. */
  final Water inlet;

  /** Suction pipe, pump and filter, with the probes at its end. */
  final Water probeLine;

  /** From the dosing point to the inlet. */
  final Water returnLine;

  private final Settings settings;
  private final double nominalM3S;
  private final Water drawn;
  private final List<Water> bodies;
  private boolean pumpRuns;
  private double flowM3S;

  /**
   * @param pump what switches the circulation pump
   * @param turnoverH time in which the pump circulates the pool's volume, h
   * @param inletShare share of the volume in the zone at the inlet
   * @param jetRatio flow that the jet entrains from the rest, as a multiple of the pump's flow
   * @param idleExchangeH time in which that zone mixes with the rest while the pump is off, h
   * @param probeLineM3 volume before the probes, m³
   * @param returnLineM3 volume after the dosing point, m³
   * @param lineCreepH time in which water standing in the return line mixes back to the probes, h
   */
  public record Settings(
      Pump pump,
      double turnoverH,
      double inletShare,
      double jetRatio,
      double idleExchangeH,
      double probeLineM3,
      double returnLineM3,
      double lineCreepH) {}

  /** What switches the circulation pump. */
  public sealed interface Pump {
    /** The controller's request. */
    record OnRequest() implements Pump {}

    /**
     * Its own timer.
     *
     * @param startHour hour of the solar day, 0–24
     * @param hours running time, h
     */
    record OwnTimer(double startHour, double hours) implements Pump {
      boolean runs(double solarHour) {
        double since = solarHour - startHour;
        return (since < 0 ? since + 24 : since) < hours;
      }
    }

    /**
     * Several timers, and days on which the pump was left off.
     *
     * @param missed solar days since 1970 on which the pump does not run
     */
    record OwnTimers(List<OwnTimer> timers, Set<Long> missed) implements Pump {
      public OwnTimers {
        timers = List.copyOf(timers);
        missed = Set.copyOf(missed);
      }

      /** Whether the pump runs, at a longitude in degrees east. */
      public boolean runs(double unixTimeS, double longitudeDeg) {
        long day = (long) StrictMath.floor((unixTimeS + longitudeDeg / 15 * 3600) / 86_400);
        double solarHour = Sky.solarHour(unixTimeS, longitudeDeg);
        return !missed.contains(day) && timers.stream().anyMatch(t -> t.runs(solarHour));
      }
    }
  }

  Hydraulics(Settings settings, double volumeM3) {
    this.settings = settings;
    this.probeLine = new Water(settings.probeLineM3);
    this.returnLine = new Water(settings.returnLineM3);
    this.inlet = new Water(settings.inletShare * volumeM3);
    this.bulk = new Water(volumeM3 - inlet.volumeM3 - settings.probeLineM3 - settings.returnLineM3);
    this.drawn = new Water(bulk.volumeM3);
    this.bodies = List.of(bulk, inlet, probeLine, returnLine);
    this.nominalM3S = volumeM3 / (3600 * settings.turnoverH);
  }

  List<Water> bodies() {
    return bodies;
  }

  void switchPump(boolean requested, double unixTimeS, double longitudeDeg, boolean flowLost) {
    // Java 17 has no switch over patterns
    if (settings.pump instanceof Pump.OwnTimer timer) {
      pumpRuns = timer.runs(Sky.solarHour(unixTimeS, longitudeDeg));
    } else if (settings.pump instanceof Pump.OwnTimers timers) {
      pumpRuns = timers.runs(unixTimeS, longitudeDeg);
    } else {
      pumpRuns = requested;
    }
    flowM3S = pumpRuns && !flowLost ? nominalM3S : 0;
  }

  boolean pumpRuns() {
    return pumpRuns;
  }

  double flowM3S() {
    return flowM3S;
  }

  double flowLMin() {
    return flowM3S * 60_000;
  }

  /** Moves the water for one step while the feeders feed evenly into the return line. */
  void step(double dtS, Fed fed) {
    double smallestM3 = StrictMath.min(probeLine.volumeM3, returnLine.volumeM3);
    // Explicit upwind steps of at most half the smallest line keep everything positive and conserve
    // mass.
    int parts = (int) StrictMath.max(1, StrictMath.ceil(2 * flowM3S * dtS / smallestM3));
    double movedM3 = flowM3S * dtS / parts;
    double idleM3 = inlet.volumeM3 * dtS / (3600 * settings.idleExchangeH) / parts;
    double creepM3 =
        flowM3S > 0 ? 0 : returnLine.volumeM3 * dtS / (3600 * settings.lineCreepH) / parts;
    for (int i = 0; i < parts; i++) {
      returnLine.add(fed, 1.0 / parts);
      circulate(movedM3);
      exchange(bulk, inlet, movedM3 * settings.jetRatio + idleM3);
      exchange(returnLine, probeLine, creepM3);
    }
  }

  private void circulate(double movedM3) {
    if (movedM3 <= 0) {
      return;
    }
    drawn.copyFrom(bulk);
    bulk.receive(inlet, movedM3);
    inlet.receive(returnLine, movedM3);
    returnLine.receive(probeLine, movedM3);
    probeLine.receive(drawn, movedM3);
  }

  /** Exchanges a volume between two bodies of water. */
  private void exchange(Water larger, Water smaller, double swappedM3) {
    if (swappedM3 <= 0) {
      return;
    }
    drawn.copyFrom(larger);
    larger.receive(smaller, swappedM3);
    smaller.receive(drawn, swappedM3);
  }
}
