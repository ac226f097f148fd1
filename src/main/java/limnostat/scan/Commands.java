package limnostat.scan;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import limnostat.alarm.Alarms;
import limnostat.control.Mode;
import limnostat.control.Superchlorination;
import limnostat.estimate.Doubted;
import limnostat.estimate.Estimator;
import limnostat.estimate.SunForecast;
import limnostat.estimate.TestLog;
import limnostat.safety.Cause;
import limnostat.safety.Interlocks;

/**
 * Grants or refuses commands. Nothing here widens a limit: a value past one is refused with the
 * limit's name.
 */
final class Commands {
  /**
   * Least free chlorine that may be a target, mg/L: least for public pools, 22 CCR 65529
   * (California).
   */
  private static final double TARGET_MIN_MG_L = 1;

  /** Longest superchlorination that can be asked for, s (engineering judgement). */
  private static final double SUPERCHLORINATION_MAX_S = 48 * 3600.0;

  private Commands() {}

  record Result(ScanState state, List<ScanEvent> events) {}

  /** Why a command is refused; a clause for people. */
  private static final class Refusal extends Exception {
    private static final long serialVersionUID = 1L;

    Refusal(String reason) {
      super(reason);
    }
  }

  /**
   * @param unixTimeS now, by the wall clock
   */
  static Result apply(
      ScanSettings settings, ScanState state, List<Command.Request> requests, double unixTimeS) {
    if (requests.isEmpty()) {
      return new Result(state, List.of());
    }
    ScanState current = state;
    List<ScanEvent> events = new ArrayList<>();
    for (Command.Request request : requests) {
      try {
        ScanState before = current;
        current = granted(settings, current, request.command(), unixTimeS, events);
        events.add(new ScanEvent.Accepted(request, remark(request.command(), before, current)));
      } catch (Refusal refusal) {
        events.add(new ScanEvent.Refused(request, refusal.getMessage()));
      }
    }
    return new Result(current, events);
  }

  private static ScanState granted(
      ScanSettings settings, ScanState s, Command command, double unixTimeS, List<ScanEvent> events)
      throws Refusal {
    if (command instanceof Command.SetMode c) {
      double duty = c.duty().orElse(s.control().lastDuty());
      within("duty", duty, 0, 1, "", "the range of a duty cycle");
      if (c.mode() != Mode.MANUAL && c.duty().isPresent()) {
        throw new Refusal("duty goes with mode manual only");
      }
      return s.withControl(s.control().withMode(c.mode(), duty));
    }
    if (command instanceof Command.SetTarget c) {
      double highMgL = settings.limits().targetMaxMgL();
      within(
          "free_chlorine_mg_l",
          c.freeChlorineMgL(),
          TARGET_MIN_MG_L,
          highMgL,
          " mg/L",
          "the installer's limits.free_chlorine_high and the program's hard bound");
      return s.withControl(s.control().withTarget(c.freeChlorineMgL()));
    }
    if (command instanceof Command.Test c) {
      Optional<String> refusal = TestPlausibility.refusal(c.test());
      if (refusal.isPresent()) {
        throw new Refusal(refusal.get());
      }
      return s.withEstimate(Estimator.test(s.estimate(), c.test()));
    }
    if (command instanceof Command.Superchlorinate c) {
      return s.withControl(s.control().withSuperchlorination(superchlorination(settings, s, c)));
    }
    if (command instanceof Command.ForecastSun c) {
      return s.withSun(s.sun().withForecast(forecast(c, unixTimeS)));
    }
    if (command instanceof Command.Acknowledge c) {
      Cause alarm =
          Cause.ofId(c.alarm()).orElseThrow(() -> new Refusal("no alarm has the id " + c.alarm()));
      if (!Alarms.acknowledgeable(s.alarms(), alarm)) {
        throw new Refusal("alarm " + c.alarm() + " has nothing to acknowledge");
      }
      Alarms.Result result = Alarms.acknowledge(s.alarms(), alarm);
      result
          .transitions()
          .forEach(t -> events.add(new ScanEvent.AlarmChanged(t.alarm(), t.from(), t.to())));
      return s.withAlarms(result.entries());
    }
    if (command instanceof Command.Reset c) {
      Cause cause =
          Cause.ofId(c.interlock())
              .orElseThrow(() -> new Refusal("no interlock has the id " + c.interlock()));
      if (cause == Cause.RESTART_LOOP && s.safety().active().contains(cause)) {
        return s.withSafety(s.safety().withRun(s.safety().run().reset()));
      }
      if (!cause.latching() || !s.safety().active().contains(cause)) {
        throw new Refusal("interlock " + c.interlock() + " is not latched");
      }
      if (!Interlocks.resettable(s.safety(), cause)) {
        throw new Refusal("the cause of " + c.interlock() + " is still there");
      }
      return s.withSafety(Interlocks.reset(s.safety(), cause));
    }
    throw new Refusal(((Command.Unreadable) command).reason());
  }

  private static Superchlorination superchlorination(
      ScanSettings settings, ScanState s, Command.Superchlorinate c) throws Refusal {
    if (c.freeChlorineMgL() == 0) {
      if (!s.control().superchlorination().running()) {
        throw new Refusal("no superchlorination runs");
      }
      return s.control().superchlorination().stop();
    }
    if (s.control().mode() != Mode.AUTO) {
      throw new Refusal("superchlorination needs mode auto; mode is " + s.control().mode().key());
    }
    within(
        "free_chlorine_mg_l",
        c.freeChlorineMgL(),
        s.control().targetMgL(),
        settings.limits().superchlorinationMaxMgL(),
        " mg/L",
        "the target and the installer's limits.superchlorination_max");
    within(
        "max_hours",
        c.maxS() / 3600,
        1,
        SUPERCHLORINATION_MAX_S / 3600,
        " h",
        "the program's hard bound");
    return Superchlorination.begin(c.freeChlorineMgL(), c.maxS());
  }

  private static SunForecast forecast(Command.ForecastSun c, double unixTimeS) throws Refusal {
    List<Double> fractions = c.clearSkyFractions();
    if (fractions.size() > SunForecast.HOURS_MAX) {
      throw new Refusal(
          "clear_sky_fraction has "
              + fractions.size()
              + " hours; a forecast has at most "
              + SunForecast.HOURS_MAX);
    }
    for (double fraction : fractions) {
      within(
          "clear_sky_fraction",
          fraction,
          0,
          SunForecast.FRACTION_MAX,
          "",
          "what clouds leave of a clear sky's sun, or add to it");
    }
    if (!Double.isFinite(c.fromUnixS())) {
      throw new Refusal("from is no time");
    }
    SunForecast forecast = new SunForecast(c.fromUnixS(), fractions);
    if (!fractions.isEmpty() && forecast.untilUnixS() <= unixTimeS) {
      throw new Refusal(
          "the forecast is over already; look at its zone and at this machine's clock");
    }
    if (c.fromUnixS() > unixTimeS + SunForecast.HOURS_MAX * 3600) {
      throw new Refusal(
          "the forecast begins more than "
              + SunForecast.HOURS_MAX
              + " hours from now; look at its zone and at this machine's clock");
    }
    return forecast;
  }

  /** What the sender should know all the same. */
  private static Optional<String> remark(Command command, ScanState before, ScanState after) {
    return command instanceof Command.Test c && c.test().freeChlorineMgL().isPresent()
        ? remark(before.estimate().tests(), after.estimate().tests())
        : Optional.empty();
  }

  private static Optional<String> remark(TestLog before, TestLog after) {
    Doubted doubted = after.doubted();
    return switch (after.verdict()) {
      case DOUBTED ->
          Optional.of(
              String.format(
                  Locale.ROOT,
                  "it contradicts the %.1f mg/L of free chlorine that were expected and is not"
                      + " believed yet: look at sample and reagents and test again; a second that"
                      + " bears it out, 5 minutes later or more, is believed",
                  doubted.expectedMgL()));
      case BORNE_OUT -> Optional.of("it bears out the test before it: both are believed");
      case BELIEVED, NONE ->
          before.doubted().standing()
              ? Optional.of("the test before it, which contradicted, is set aside")
              : Optional.empty();
    };
  }

  private static void within(
      String field, double value, double min, double max, String unit, String limit)
      throws Refusal {
    if (!(value >= min && value <= max)) {
      throw new Refusal(
          field + " " + value + unit + " is outside " + min + " to " + max + unit + ", " + limit);
    }
  }
}
