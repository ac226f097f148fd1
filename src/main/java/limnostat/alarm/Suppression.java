package limnostat.alarm;

import static limnostat.safety.Cause.CELL_CURRENT_MISSING;
import static limnostat.safety.Cause.FUNCTION_CHECK;
import static limnostat.safety.Cause.NO_FLOW;
import static limnostat.safety.Cause.ORP_FAILURE;
import static limnostat.safety.Cause.ORP_HIGH;
import static limnostat.safety.Cause.OUTPUT_NOT_DRIVEN;
import static limnostat.safety.Cause.PH_FAILURE;
import static limnostat.safety.Cause.PH_HIGH;
import static limnostat.safety.Cause.PH_LOW;
import static limnostat.safety.Cause.PUMP_OFF;
import static limnostat.safety.Cause.STANDING_WATER;
import static limnostat.safety.Cause.TANK_LOW;
import static limnostat.safety.Cause.WATER_COLD;

import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import limnostat.safety.Cause;
import limnostat.safety.Priority;

/**
 * Suppressed by design (ISA-18.2): while one cause is active, some alarms say nothing about the
 * pool, or only repeat the first. Their causes keep their effect on the outputs. All of it is
 * engineering judgement.
 *
 * @param cause while this cause is active
 * @param alarms these are suppressed
 * @param why reason, for display
 */
public record Suppression(Cause cause, Set<Cause> alarms, String why) {
  /**
   * Alarms that probes in standing water cannot judge. {@link Cause#WATER_HOT} is not one of them:
   * a heater that heats standing water must be reported.
   */
  private static final Set<Cause> OF_PROBES =
      Set.of(ORP_FAILURE, ORP_HIGH, PH_FAILURE, PH_LOW, PH_HIGH, WATER_COLD);

  /** The table; another suppression needs only another row. */
  public static final List<Suppression> TABLE =
      List.of(
          new Suppression(NO_FLOW, OF_PROBES, "the probes stand in water at rest"),
          new Suppression(PUMP_OFF, OF_PROBES, "the probes stand in water at rest"),
          new Suppression(FUNCTION_CHECK, OF_PROBES, "a person has the probes in hand"),
          new Suppression(STANDING_WATER, OF_PROBES, "the probes still see the pipe's water"),
          new Suppression(
              NO_FLOW, Set.of(CELL_CURRENT_MISSING), "the flow switch has cut the cell's power"),
          new Suppression(
              PUMP_OFF, Set.of(CELL_CURRENT_MISSING), "the flow switch has cut the cell's power"),
          new Suppression(TANK_LOW, Set.of(CELL_CURRENT_MISSING), "nothing is fed"),
          new Suppression(
              OUTPUT_NOT_DRIVEN, Set.of(CELL_CURRENT_MISSING), "the output does not follow"));

  /** Copies the alarms, and rejects those that must never be silent. */
  public Suppression {
    alarms = Set.copyOf(alarms);
    for (Cause alarm : alarms) {
      if (alarm.priority() == Priority.CRITICAL) {
        throw new IllegalArgumentException(alarm.id() + " is critical and never suppressed");
      }
    }
  }

  /** The alarms that are suppressed while these causes are active. */
  static Set<Cause> by(Set<Cause> active) {
    EnumSet<Cause> suppressed = EnumSet.noneOf(Cause.class);
    for (Suppression row : TABLE) {
      if (active.contains(row.cause())) {
        suppressed.addAll(row.alarms());
      }
    }
    return suppressed;
  }
}
