package limnostat.faults;

import static limnostat.faults.Injection.chlorine;

import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import limnostat.actuate.Output;
import limnostat.control.ControlSettings.PumpWindow;
import limnostat.measure.Role;
import limnostat.plant.PlantFault;
import limnostat.safety.Cause;
import limnostat.scan.Command;

/** The faults of the field, the plant and the program. */
final class Injections {
  private static final double LASTS_S = 7200;

  private Injections() {}

  /**
   * The causes that no fault of the field can bring about within hours, with the reason for each.
   */
  static final Map<Cause, String> NOT_INJECTED =
      Map.of(
          Cause.MODE_OFF, "a person's choice, no fault",
          Cause.CHLORINE_RECENT, "comes with every turn of acid",
          Cause.ACID_RECENT, "comes with every turn of acid",
          Cause.BLIND_FEED_LOW, "takes days on the ration; a test tells its story",
          Cause.ESTIMATE_LOST, "takes half a day to be reported; a test tells its story",
          Cause.ESTIMATE_UNSURE, "takes a day to be reported; a test tells its story",
          Cause.CHLORINE_DOUBTFUL, "takes a day to be reported; a test tells its story",
          Cause.STARVED_BY_ORP, "takes a day to be reported; a test tells its story",
          Cause.OUTPUT_TOO_SMALL, "takes a day to be reported; a test tells its story");

  /** All faults, in the order of the matrix. */
  static final List<Injection> ALL =
      Stream.of(fields(), PeoplesInjections.all())
          .flatMap(List::stream)
          .sorted(Comparator.comparing(Injection::cause))
          .toList();

  private static List<Injection> fields() {
    return List.of(
        chlorine(Cause.INTERRUPTED, "no scan for 70 s", b -> b.stalls(70), 72, Injection::nothing),
        chlorine(
            Cause.RESTART_LOOP,
            "the process dies each minute",
            Injections::diesAndDies,
            1,
            Injection::nothing),
        chlorine(
            Cause.SCAN_OVERRUN,
            "each scan late",
            b -> b.overran = true,
            15,
            b -> b.overran = false),
        chlorine(
            Cause.NO_FLOW,
            "air in the pump",
            b -> b.breaks(PlantFault.FlowLost::new, LASTS_S),
            1,
            Injection::nothing),
        chlorine(
            Cause.FLOW_NOT_PROVEN,
            "flow gone for 5 s",
            b -> {
              b.breaks(PlantFault.FlowLost::new, 5);
              b.scan(6);
            },
            1,
            Injection::nothing),
        chlorine(
            Cause.FLOW_MISSING,
            "valve closed",
            b -> b.breaks(PlantFault.FlowLost::new, LASTS_S),
            1,
            Injection::nothing),
        chlorine(
            Cause.PUMP_OFF,
            "pump contact's wire broken",
            b -> b.breaks(span -> new PlantFault.OpenWire(Role.PUMP_ON, 0, 1, span), LASTS_S),
            1,
            Injection::nothing),
        chlorine(
            Cause.STANDING_WATER,
            "flow gone for 60 s",
            b -> {
              b.breaks(PlantFault.FlowLost::new, 60);
              b.scan(61);
            },
            1,
            Injection::nothing),
        new Injection(
            Cause.FLOW_UNASKED,
            "flow switch stuck, no pump contact",
            // The pump window leaves one hour from the start at 8:00.
            Setup.CHLORINE.with(
                Setup.CHLORINE.configured().withPumpHours(new PumpWindow(0, 9 * 3600))),
            b -> b.contact(Role.FLOW, true),
            3600 + 900,
            b -> b.freed(Role.FLOW)),
        chlorine(
            Cause.FLOW_STUCK,
            "pump trips, flow switch stuck",
            b -> {
              b.contact(Role.FLOW, true);
              b.contact(Role.PUMP_ON, false);
            },
            181,
            b -> {
              b.contact(Role.FLOW, false);
              b.scan(1);
              b.freed(Role.FLOW);
              b.freed(Role.PUMP_ON);
            }),
        chlorine(
            Cause.COVER_CLOSED,
            "cover closed",
            b -> b.contact(Role.COVER_CLOSED, true),
            1,
            b -> b.contact(Role.COVER_CLOSED, false)),
        unplugged(Cause.ORP_FAILURE, Role.ORP_MV),
        unplugged(Cause.PH_FAILURE, Role.PH_MV),
        unplugged(Cause.WATER_FAILURE, Role.WATER_C),
        new Injection(
            Cause.WATER_DISAGREES,
            "thermometer out of its pocket, 8 °C warmer",
            // Caps that leave room for the hours that the fault takes.
            Setup.chlorine(25, 400),
            b -> {
              b.scan(4000);
              b.breaks(span -> new PlantFault.Offset(Role.WATER_C, 8, span), LASTS_S);
            },
            1900,
            Injection::nothing),
        new Injection(
            Cause.PH_UNEXPLAINED,
            "pH electrode jumps up by 0.6",
            Setup.ACID,
            b -> b.breaks(span -> new PlantFault.Offset(Role.PH_MV, -35, span), LASTS_S),
            1900,
            Injection::nothing),
        new Injection(
            Cause.ACID_NO_RESPONSE,
            "acid line slipped off",
            Setup.acid(600, 3000),
            b -> b.breaks(span -> new PlantFault.OutputDead(Output.ACID, span), 24 * 3600),
            18 * 3600,
            FaultBench::testedPh),
        chlorine(
            Cause.FEEDING_BLIND,
            "ORP's cable cut",
            b -> b.breaks(span -> new PlantFault.Unplugged(Role.ORP_MV, span), LASTS_S),
            65,
            Injection::nothing),
        new Injection(
            Cause.BLIND_FEED_SPENT,
            "ORP's cable cut, no blind budget",
            Setup.CHLORINE.with(Setup.CHLORINE.configured().withBlindFeedMgL(0)),
            b -> b.breaks(span -> new PlantFault.Unplugged(Role.ORP_MV, span), LASTS_S),
            65,
            Injection::nothing),
        new Injection(
            Cause.ORP_FALLING,
            "electrode creeps down by 4 mV an hour",
            Setup.chlorine(25, 800),
            b ->
                b.breaks(
                    span -> new PlantFault.Ramp(Role.ORP_MV, -120, 30 * 3600, span), 30 * 3600),
            30 * 3600,
            b -> b.tested(3, Double.NaN, Double.NaN)),
        new Injection(
            Cause.NO_RESPONSE,
            "electrode dead, front end hums",
            Setup.chlorine(25, 400),
            b -> b.breaks(span -> new PlantFault.Deaf(Role.ORP_MV, 0.5, span), 15 * 3600),
            12 * 3600,
            Injection::nothing),
        ramp(Cause.WATER_COLD, "water 20 °C colder in 10 min", Role.WATER_C, -20),
        ramp(Cause.WATER_HOT, "water 20 °C hotter in 10 min", Role.WATER_C, 20),
        offset(Cause.PH_LOW, "pH 1 lower", Role.PH_MV, 59),
        offset(Cause.PH_HIGH, "pH 1 higher", Role.PH_MV, -59),
        offset(Cause.ORP_HIGH, "ORP 250 mV higher", Role.ORP_MV, 250),
        new Injection(
            Cause.CHLORINE_HOUR_CAP,
            "demand without end",
            Setup.chlorine(8, 160),
            Injection::nothing,
            3600,
            Injection::nothing),
        new Injection(
            Cause.CHLORINE_DAY_CAP,
            "demand without end",
            Setup.chlorine(20, 25),
            Injection::nothing,
            7200,
            Injection::nothing),
        new Injection(
            Cause.CHLORINE_LONGEST_RUN,
            "demand without end",
            Setup.CHLORINE.withLongestRunS(1800),
            Injection::nothing,
            1801,
            Injection::nothing),
        new Injection(
            Cause.ACID_HOUR_CAP,
            "pH that does not fall",
            Setup.acid(80, 600),
            Injection::nothing,
            3600,
            Injection::nothing),
        new Injection(
            Cause.ACID_DAY_CAP,
            "pH that does not fall",
            Setup.acid(80, 80),
            Injection::nothing,
            3600,
            Injection::nothing),
        new Injection(
            Cause.ACID_LONGEST_RUN,
            "pH that does not fall",
            Setup.ACID.withLongestRunS(60),
            Injection::nothing,
            61,
            Injection::nothing),
        chlorine(
            Cause.CHLORINE_NOT_BOOKED,
            "ledger answers no more",
            b -> b.ledgerStands = true,
            600,
            b -> b.ledgerStands = false),
        new Injection(
            Cause.ACID_NOT_BOOKED,
            "ledger answers no more",
            Setup.acid(600, 1000),
            b -> b.ledgerStands = true,
            600,
            b -> b.ledgerStands = false),
        chlorine(
            Cause.LEDGER_FAILING,
            "disk full",
            b -> b.ledgerFailing = true,
            1,
            b -> b.ledgerFailing = false),
        chlorine(
            Cause.ACCOUNT_UNKNOWN,
            "ledger damaged",
            FaultBench::losesTheLedger,
            1,
            Injection::nothing),
        chlorine(
            Cause.TANK_LOW,
            "chlorine tank empty",
            b -> b.contact(Role.TANK_LOW, true),
            1,
            b -> b.contact(Role.TANK_LOW, false)),
        new Injection(
            Cause.ACID_TANK_LOW,
            "acid tank empty",
            Setup.ACID,
            b -> b.breaks(span -> new PlantFault.TankEmpty(Output.ACID, span), LASTS_S),
            1,
            Injection::nothing),
        chlorine(
            Cause.CELL_CURRENT_UNEXPECTED,
            "relay welded",
            b -> {
              b.byHand(0);
              b.scan(120);
              b.breaks(span -> new PlantFault.RelayStuckOn(Output.CHLORINE, span), LASTS_S);
            },
            20,
            b -> b.byHand(1)),
        chlorine(
            Cause.CELL_CURRENT_MISSING,
            "cell's fuse blown",
            b -> b.breaks(span -> new PlantFault.OutputDead(Output.CHLORINE, span), LASTS_S),
            365,
            Injection::nothing),
        chlorine(
            Cause.CELL_CURRENT_LOW,
            "plates scaled, half the current",
            b -> b.breaks(span -> new PlantFault.Scaled(Role.CELL_A, 0.5, span), LASTS_S),
            605,
            Injection::nothing),
        chlorine(
            Cause.CELL_OVER_CURRENT,
            "plates bridged, twice the current",
            b -> b.breaks(span -> new PlantFault.Scaled(Role.CELL_A, 2, span), LASTS_S),
            15,
            Injection::nothing),
        chlorine(
            Cause.OUTPUT_NOT_DRIVEN,
            "output line refused",
            b -> b.outputsDriven = false,
            1,
            b -> b.outputsDriven = true),
        chlorine(
            Cause.CLOCK_NOT_TRUSTED,
            "no time server",
            b -> b.clockTrusted = false,
            610,
            b -> b.clockTrusted = true));
  }

  /** The last value is used until the stale time has passed. */
  private static Injection unplugged(Cause cause, Role role) {
    return chlorine(
        cause,
        role.key() + " unplugged",
        b -> b.breaks(span -> new PlantFault.Unplugged(role, span), LASTS_S),
        62,
        Injection::nothing);
  }

  /** A step is accepted once it has lasted, unless the probe has failed by then. */
  private static Injection offset(Cause cause, String fault, Role role, double step) {
    return chlorine(
        cause,
        fault,
        b -> b.breaks(span -> new PlantFault.Offset(role, step, span), LASTS_S),
        300,
        Injection::nothing);
  }

  /**
   * As fast as water could change. A step is too fast for the thermometer: it would fail first, and
   * be trusted again only after minutes.
   */
  private static Injection ramp(Cause cause, String fault, Role role, double step) {
    return chlorine(
        cause,
        fault,
        b -> b.breaks(span -> new PlantFault.Ramp(role, step, 600, span), LASTS_S),
        700,
        Injection::nothing);
  }

  private static void diesAndDies(FaultBench bench) {
    for (int i = 0; i < 5; i++) {
      bench.scan(60);
      bench.dies();
    }
  }

  static void reset(FaultBench bench, Cause cause) {
    bench.asks(new Command.Reset(cause.id()));
  }
}
