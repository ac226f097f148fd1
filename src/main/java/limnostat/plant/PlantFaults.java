package limnostat.plant;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import limnostat.actuate.Output;
import limnostat.measure.Role;
import limnostat.measure.Signal;

/** The faults of a pool and their effect on commands, flow and signals. */
final class PlantFaults {
  private final List<PlantFault> faults = new ArrayList<>();

  /** The signal at the start of each signal fault. */
  private final Map<PlantFault, Signal> atOnset = new HashMap<>();

  void add(PlantFault fault) {
    faults.add(fault);
  }

  /** The next time at which a fault starts or ends, Unix s; infinite if none does. */
  double nextChangeUnixS(double unixTimeS) {
    double next = Double.POSITIVE_INFINITY;
    for (PlantFault fault : faults) {
      PlantFault.Span span = fault.span();
      if (span.startUnixS() > unixTimeS) {
        next = StrictMath.min(next, span.startUnixS());
      }
      if (span.endUnixS() > unixTimeS) {
        next = StrictMath.min(next, span.endUnixS());
      }
    }
    return next;
  }

  boolean flowLost(double unixTimeS) {
    for (PlantFault fault : faults) {
      if (fault instanceof PlantFault.FlowLost && fault.span().covers(unixTimeS)) {
        return true;
      }
    }
    return false;
  }

  /**
   * The real action of an output for a command. A dead output or an empty tank overrides a stuck
   * relay.
   */
  double command(Output output, double commanded, double unixTimeS) {
    double actual = commanded;
    boolean dead = false;
    for (PlantFault fault : faults) {
      if (!fault.span().covers(unixTimeS)) {
        continue;
      }
      if (fault instanceof PlantFault.RelayStuckOn stuck && stuck.output() == output) {
        actual = 1;
      } else if (fault instanceof PlantFault.OutputDead off && off.output() == output) {
        dead = true;
      } else if (fault instanceof PlantFault.TankEmpty empty && empty.output() == output) {
        dead = true;
      }
    }
    return dead ? 0 : actual;
  }

  /** The signal that the field sees. */
  Signal signal(Role role, Signal healthy, double unixTimeS) {
    Signal seen = healthy;
    for (PlantFault fault : faults) {
      if (fault.span().covers(unixTimeS)) {
        seen = change(fault, role, seen, unixTimeS);
      }
    }
    return seen;
  }

  private Signal change(PlantFault fault, Role role, Signal signal, double unixTimeS) {
    // Java 17 has no switch over patterns
    if (fault instanceof PlantFault.Unplugged unplugged && unplugged.role() == role) {
      return new Signal.Missing("simulated: " + role.key() + " is unplugged");
    }
    if (fault instanceof PlantFault.Frozen frozen && frozen.role() == role) {
      return atOnset.computeIfAbsent(fault, ignored -> signal);
    }
    if (fault instanceof PlantFault.OpenWire open && open.role() == role) {
      return drifted(open, atOnset.computeIfAbsent(fault, ignored -> signal), unixTimeS);
    }
    if (fault instanceof PlantFault.Offset offset
        && offset.role() == role
        && signal instanceof Signal.Analog analog) {
      return new Signal.Analog(analog.value() + offset.step());
    }
    if (fault instanceof PlantFault.Ramp ramp
        && ramp.role() == role
        && signal instanceof Signal.Analog analog) {
      double share = StrictMath.min(1, (unixTimeS - ramp.span().startUnixS()) / ramp.overS());
      return new Signal.Analog(analog.value() + ramp.step() * share);
    }
    if (fault instanceof PlantFault.Scaled scaled
        && scaled.role() == role
        && signal instanceof Signal.Analog analog) {
      return new Signal.Analog(analog.value() * scaled.factor());
    }
    if (fault instanceof PlantFault.Deaf deaf
        && deaf.role() == role
        && atOnset.computeIfAbsent(fault, ignored -> signal) instanceof Signal.Analog analog) {
      // In radians per second, so that no whole scan period samples the same phase again.
      return new Signal.Analog(analog.value() + deaf.hum() * StrictMath.sin(unixTimeS));
    }
    if (fault instanceof PlantFault.TankEmpty empty && levelSwitch(empty.output()) == role) {
      return new Signal.Contact(true);
    }
    return signal;
  }

  private static Signal drifted(PlantFault.OpenWire open, Signal onset, double unixTimeS) {
    if (onset instanceof Signal.Analog analog) {
      double kept = StrictMath.exp((open.span().startUnixS() - unixTimeS) / open.driftS());
      return new Signal.Analog(open.rail() + (analog.value() - open.rail()) * kept);
    }
    return onset instanceof Signal.Contact ? new Signal.Contact(false) : onset;
  }

  private static Role levelSwitch(Output output) {
    return switch (output) {
      case CHLORINE -> Role.TANK_LOW;
      case ACID -> Role.ACID_TANK_LOW;
    };
  }
}
