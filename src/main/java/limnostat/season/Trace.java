package limnostat.season;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Collectors;
import limnostat.actuate.Output;
import limnostat.alarm.Alarms;
import limnostat.measure.Role;
import limnostat.measure.Signal;
import limnostat.measure.Signals;
import limnostat.plant.Truth;
import limnostat.safety.Cause;
import limnostat.safety.Effect;
import limnostat.scan.ScanOutcome;
import limnostat.scan.ScanState;

/** State and truth side by side as CSV: one row for each pool and hour of the program's season. */
final class Trace {
  static final String HEAD =
      "pool,unix_time_s,day,hour,true_free_chlorine_mg_l,true_combined_chlorine_mg_l,true_hocl_mg_l,"
          + "true_ph,true_water_c,true_cyanuric_acid_mg_l,true_demand_mg_l_day,true_output_gain,"
          + "orp_mv,flow,estimate_mg_l,estimate_sd_mg_l,demand_mg_l_day,demand_sd_mg_l_day,"
          + "output_gain,control_level,duty,on_share,fed_g,test_mg_l,test_due,alarms,inhibits\n";

  private final Appendable out;
  private final Map<Integer, String> waiting = new TreeMap<>();
  private int next = 1;

  Trace(Appendable out) {
    this.out = out;
  }

  /** Pools finish in any order on any thread; they are written in the order of their numbers. */
  synchronized void add(int pool, String rows) {
    waiting.put(pool, rows);
    try {
      if (next == 1 && waiting.containsKey(1)) {
        out.append(HEAD);
      }
      for (String ready = waiting.remove(next); ready != null; ready = waiting.remove(next)) {
        out.append(ready);
        next++;
      }
    } catch (IOException e) {
      throw new UncheckedIOException("the trace could not be written: " + e.getMessage(), e);
    }
  }

  /** The rows of one pool. */
  static final class Rows {
    private final Site site;
    private final StringBuilder rows = new StringBuilder();
    private double onS;
    private double passedS;
    private double fedBeforeG;
    private Optional<KitTest> test = Optional.empty();

    Rows(Site site) {
      this.site = site;
    }

    /**
     * Adds one step.
     *
     * @param unixTimeS end of the step
     * @param signals at the end of the step
     * @param tested at the start of the step
     */
    void passed(
        double unixTimeS,
        double stepS,
        Truth truth,
        Signals signals,
        ScanOutcome outcome,
        Optional<KitTest> tested) {
      onS += outcome.outputs().chlorine() * stepS;
      passedS += stepS;
      test = tested.isPresent() ? tested : test;
      if (passedS + stepS / 2 < 3600) {
        return;
      }
      row(unixTimeS, truth, signals, outcome);
      onS = 0;
      passedS = 0;
      fedBeforeG = truth.chlorineGivenG();
      test = Optional.empty();
    }

    private void row(double unixTimeS, Truth truth, Signals signals, ScanOutcome outcome) {
      ScanState state = outcome.state();
      double hours = (unixTimeS - site.startUnixS()) / 3600;
      double fedG = truth.chlorineGivenG() - fedBeforeG;
      double labelG = site.configured().chlorine().caps().ratePerH() * onS / 3600;
      text(String.valueOf(site.number()));
      number("%.0f", unixTimeS);
      number("%.0f", StrictMath.floor(hours / 24));
      number("%.0f", hours - 24 * StrictMath.floor(hours / 24));
      number("%.3f", truth.freeChlorineMgL());
      number("%.3f", truth.combinedChlorineMgL());
      number("%.4f", truth.hoclMgL());
      number("%.2f", truth.ph());
      number("%.1f", truth.waterC());
      number("%.1f", truth.cyanuricAcidMgL());
      number("%.2f", truth.demandMgLDay());
      number("%.3f", onS > 60 ? fedG / labelG : Double.NaN);
      number("%.1f", analog(signals.of(Role.ORP_MV)));
      text(outcome.measured().flow() ? "1" : "0");
      number("%.3f", outcome.estimate().freeChlorineMgL());
      number("%.3f", outcome.estimate().freeChlorineSdMgL());
      number("%.2f", outcome.estimate().demandMgLDay());
      number("%.2f", outcome.estimate().demandSdMgLDay());
      number("%.3f", outcome.estimate().outlook().gain());
      text(state.control().level().settled().key());
      number("%.3f", outcome.demand().chlorineDuty());
      number("%.3f", onS / passedS);
      number("%.1f", fedG);
      number("%.2f", test.map(KitTest::freeChlorineMgL).orElse(Double.NaN));
      text(TestDue.of(outcome) ? "1" : "0");
      text(alarms(state));
      rows.append(inhibits(outcome)).append('\n');
    }

    private static double analog(Signal signal) {
      return signal instanceof Signal.Analog analog ? analog.value() : Double.NaN;
    }

    /** Active alarms of high and critical priority. */
    private static String alarms(ScanState state) {
      return state.alarms().entrySet().stream()
          .filter(e -> LowChlorineAlarm.high(e.getKey()) && stands(e))
          .map(e -> e.getKey().id())
          .sorted()
          .collect(Collectors.joining(" "));
    }

    private static boolean stands(Map.Entry<Cause, Alarms.Entry> entry) {
      return LowChlorineAlarm.stands(entry.getValue());
    }

    /** What inhibits or limits chlorine; a limit ends in {@code ~}. */
    private static String inhibits(ScanOutcome outcome) {
      return outcome.permission().active().stream()
          .filter(cause -> cause.on(Output.CHLORINE) != Effect.NONE)
          .map(cause -> cause.id() + (cause.on(Output.CHLORINE) == Effect.LIMIT ? "~" : ""))
          .sorted()
          .collect(Collectors.joining(" "));
    }

    private void text(String value) {
      rows.append(value).append(',');
    }

    private void number(String format, double value) {
      text(Double.isFinite(value) ? String.format(Locale.ROOT, format, value) : "");
    }

    @Override
    public String toString() {
      return rows.toString();
    }
  }
}
