package limnostat.faults;

import java.util.Arrays;
import java.util.List;
import limnostat.actuate.Output;
import limnostat.alarm.AlarmState;
import limnostat.alarm.Alarms;
import limnostat.safety.Cause;
import limnostat.safety.Effect;
import limnostat.safety.HardBounds;
import limnostat.safety.Priority;

/** Makes every fault, one by one, each on its own pool. */
public final class FaultSuite {
  /** The alarm has its own on-delay, and so has the cause, s. */
  private static final double NAMED_S = 120;

  /** An inhibit from the daily cap lasts as long as the cap's window, s. */
  private static final double RECOVERY_S = 26 * 3600;

  /** After this time the scans become less frequent: a day takes long at one scan a second, s. */
  private static final double PATIENT_S = 2 * 3600;

  /** The longest scan period that can be configured, s. */
  private static final double LONGEST_STEP_S = HardBounds.SCAN_PERIOD_MAX_S;

  private FaultSuite() {}

  public static FaultReport run() {
    List<FaultReport.Row> rows = Injections.ALL.parallelStream().map(FaultSuite::row).toList();
    List<FaultReport.Left> left =
        Arrays.stream(Cause.values())
            .filter(c -> Injections.ALL.stream().noneMatch(i -> i.cause() == c))
            .map(
                c ->
                    new FaultReport.Left(
                        c.id(), Injections.NOT_INJECTED.getOrDefault(c, FaultReport.NO_REASON)))
            .toList();
    return new FaultReport(rows, left);
  }

  private static FaultReport.Row row(Injection injection) {
    Cause cause = injection.cause();
    Output output = injection.setup().output();
    FaultBench bench = FaultBench.feeding(injection.setup());
    injection.comes().accept(bench);
    double fromS = bench.unixTimeS();
    double before = bench.commanded().total(output);

    boolean takes = cause.on(output) != Effect.NONE;
    do {
      bench.scan(1);
    } while (!(counts(bench, cause) && (!takes || safe(bench, cause, output)))
        && bench.unixTimeS() - fromS < injection.withinS());
    boolean answered = counts(bench, cause) && (!takes || safe(bench, cause, output));
    double tookS = bench.unixTimeS() - fromS;
    double fed = bench.commanded().total(output) - before;

    boolean named = cause.priority() == Priority.NONE ? answered : alarmed(bench, cause);
    for (int s = 0; s < NAMED_S && !named; s++) {
      bench.scan(1);
      named = alarmed(bench, cause);
    }
    String recovery = recovery(injection, bench);
    double mostHour = bench.commanded().most(output, 3600);
    double mostDay = bench.commanded().most(output, 24 * 3600);
    boolean withinCaps =
        mostHour <= injection.setup().caps().hourCap()
            && mostDay <= injection.setup().caps().dayCap();
    return new FaultReport.Row(
        cause.id(),
        injection.fault(),
        output.key(),
        effect(cause, output),
        answered,
        tookS,
        fed,
        named,
        cause.priority() == Priority.NONE ? "inhibit" : cause.priority().key() + " alarm",
        withinCaps,
        recovery);
  }

  private static boolean counts(FaultBench bench, Cause cause) {
    return bench.out().permission().active().contains(cause);
  }

  /** Off, or at most what the fallback permits. */
  private static boolean safe(FaultBench bench, Cause cause, Output output) {
    return cause.on(output) == Effect.INHIBIT
        ? bench.outputs().of(output) == 0
        : bench.out().permission().of(output) != Effect.NONE;
  }

  private static boolean alarmed(FaultBench bench, Cause cause) {
    Alarms.Entry entry = bench.out().state().alarms().get(cause);
    return entry != null
        && (entry.state() == AlarmState.UNACKNOWLEDGED
            || entry.state() == AlarmState.LATCHED_UNACKNOWLEDGED);
  }

  private static String effect(Cause cause, Output output) {
    return switch (cause.on(output)) {
      case INHIBIT -> "off";
      case LIMIT -> "limited";
      case NONE -> "reported";
    };
  }

  /** What it takes until the cause is no longer active. */
  private static String recovery(Injection injection, FaultBench bench) {
    injection.goes().accept(bench);
    double fromS = bench.unixTimeS();
    boolean latching = injection.cause().latching();
    while (bench.unixTimeS() - fromS < RECOVERY_S) {
      if (bench.unixTimeS() - fromS > PATIENT_S) {
        bench.stalls(LONGEST_STEP_S - FaultBench.SCAN_S);
      }
      bench.scan(1);
      if (!counts(bench, injection.cause())) {
        String after = FaultReport.time(bench.unixTimeS() - fromS);
        return latching ? "by a person's reset" : "by itself, " + after;
      }
      if (latching && bench.unixTimeS() - fromS > PATIENT_S) {
        Injections.reset(bench, injection.cause());
      }
    }
    return FaultReport.NEVER;
  }
}
