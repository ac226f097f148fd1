package limnostat.cli.faults;

import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import limnostat.actuate.Output;
import limnostat.cli.faults.FaultBench.Setup;
import limnostat.measure.Role;
import limnostat.plant.PlantFault;
import limnostat.safety.Cause;
import limnostat.scan.Command;

/** The faults, in the order of the matrix. */
final class Injections {
  private static final double LASTS_S = 7200;
  private static final double NAN = Double.NaN;

  private Injections() {}

  /** The causes that no fault of the field brings about within hours, each with its reason. */
  static final Map<Cause, String> NOT_INJECTED =
      Map.of(
          Cause.MODE_OFF, "a person's choice, no fault",
          Cause.CHLORINE_RECENT, "comes with every turn of acid",
          Cause.ACID_RECENT, "comes with every turn of acid",
          Cause.ESTIMATE_LOST, "takes half a day to be told; a test tells its story",
          Cause.ESTIMATE_UNSURE, "takes a day to be told; a test tells its story",
          Cause.OUTPUT_TOO_SMALL, "takes a day to be told; a test tells its story");

  static final List<Injection> ALL =
      List.of(
          chlorine(
              Cause.INTERRUPTED, "no scan for 70 s", b -> b.stalls(70), 72, Injections::nothing),
          chlorine(
              Cause.RESTART_LOOP,
              "the process dies each minute",
              Injections::diesAndDies,
              1,
              Injections::nothing),
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
              Injections::nothing),
          chlorine(
              Cause.FLOW_NOT_PROVEN,
              "flow gone for 5 s",
              b -> {
                b.breaks(PlantFault.FlowLost::new, 5);
                b.scan(6);
              },
              1,
              Injections::nothing),
          chlorine(
              Cause.FLOW_MISSING,
              "valve closed",
              b -> b.breaks(PlantFault.FlowLost::new, LASTS_S),
              1,
              Injections::nothing),
          chlorine(
              Cause.PUMP_OFF,
              "pump contact's wire broken",
              b -> b.breaks(span -> new PlantFault.OpenWire(Role.PUMP_ON, 0, 1, span), LASTS_S),
              1,
              Injections::nothing),
          chlorine(
              Cause.STANDING_WATER,
              "flow gone for 60 s",
              b -> {
                b.breaks(PlantFault.FlowLost::new, 60);
                b.scan(61);
              },
              1,
              Injections::nothing),
          unplugged(Cause.ORP_FAILURE, Role.ORP_MV),
          unplugged(Cause.PH_FAILURE, Role.PH_MV),
          unplugged(Cause.WATER_FAILURE, Role.WATER_C),
          chlorine(
              Cause.FALLBACK_EXPIRED,
              "ORP unplugged for hours",
              b -> b.breaks(span -> new PlantFault.Unplugged(Role.ORP_MV, span), LASTS_S),
              3700,
              Injections::nothing),
          offset(Cause.WATER_COLD, "water 20 °C colder", Role.WATER_C, -20),
          offset(Cause.WATER_HOT, "water 20 °C hotter", Role.WATER_C, 20),
          offset(Cause.PH_LOW, "pH 1 lower", Role.PH_MV, 59),
          offset(Cause.PH_HIGH, "pH 1 higher", Role.PH_MV, -59),
          offset(Cause.ORP_HIGH, "ORP 250 mV higher", Role.ORP_MV, 250),
          chlorine(
              Cause.FREE_CHLORINE_HIGH,
              "a test of 8 mg/L",
              b -> b.tested(8, NAN, NAN),
              1,
              b -> {
                b.tested(1, NAN, NAN);
                b.scan(600);
                b.tested(1, NAN, NAN);
              }),
          chlorine(
              Cause.TARGET_LOW_FOR_STABILISER,
              "a test of stabiliser, 80 mg/L",
              b -> b.tested(NAN, NAN, 80),
              1,
              b -> b.tested(NAN, NAN, 30)),
          chlorine(
              Cause.STABILISER_HIGH,
              "a test of stabiliser, 130 mg/L",
              b -> b.tested(NAN, NAN, 130),
              1,
              b -> b.tested(NAN, NAN, 30)),
          new Injection(
              Cause.CHLORINE_HOUR_CAP,
              "demand without end",
              Setup.chlorine(8, 160),
              Injections::nothing,
              3600,
              Injections::nothing),
          new Injection(
              Cause.CHLORINE_DAY_CAP,
              "demand without end",
              Setup.chlorine(20, 25),
              Injections::nothing,
              7200,
              Injections::nothing),
          new Injection(
              Cause.ACID_HOUR_CAP,
              "pH that does not fall",
              Setup.acid(80, 600),
              Injections::nothing,
              3600,
              Injections::nothing),
          new Injection(
              Cause.ACID_DAY_CAP,
              "pH that does not fall",
              Setup.acid(80, 80),
              Injections::nothing,
              3600,
              Injections::nothing),
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
              Injections::nothing),
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
              Injections::nothing),
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
              65,
              Injections::nothing),
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
              b -> b.clockTrusted = true),
          chlorine(
              Cause.TEST_DUE,
              "two tests that contradict",
              b -> {
                b.tested(3, NAN, NAN);
                b.scan(600);
                b.tested(0.4, NAN, NAN);
              },
              600,
              b -> b.tested(3, NAN, NAN)),
          chlorine(
              Cause.COMBINED_CHLORINE_HIGH,
              "a test of 0.8 mg/L combined",
              b -> b.tested(NAN, 0.8, NAN),
              1,
              b -> b.tested(NAN, 0.2, NAN)));

  private static Injection chlorine(
      Cause cause,
      String fault,
      Consumer<FaultBench> comes,
      double withinS,
      Consumer<FaultBench> goes) {
    return new Injection(cause, fault, Setup.CHLORINE, comes, withinS, goes);
  }

  /** A value is held over for the stale time. */
  private static Injection unplugged(Cause cause, Role role) {
    return chlorine(
        cause,
        role.key() + " unplugged",
        b -> b.breaks(span -> new PlantFault.Unplugged(role, span), LASTS_S),
        62,
        Injections::nothing);
  }

  /** A step is believed once it has stood, or the probe has failed by then. */
  private static Injection offset(Cause cause, String fault, Role role, double step) {
    return chlorine(
        cause,
        fault,
        b -> b.breaks(span -> new PlantFault.Offset(role, step, span), LASTS_S),
        300,
        Injections::nothing);
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

  /** It comes of feeding, or goes with time. */
  private static void nothing(FaultBench bench) {}
}
