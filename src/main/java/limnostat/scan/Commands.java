package limnostat.scan;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import limnostat.control.Mode;
import limnostat.control.Superchlorination;
import limnostat.estimate.Additions;
import limnostat.estimate.BelievedNow;
import limnostat.estimate.Doubted;
import limnostat.estimate.Estimator;
import limnostat.estimate.SunForecast;
import limnostat.estimate.TestKit;
import limnostat.estimate.TestLog;
import limnostat.estimate.TestVerdict;
import limnostat.estimate.UnfedChlorine;
import limnostat.estimate.WaterTest;
import limnostat.measure.Role;
import limnostat.safety.Cause;
import limnostat.safety.HardBounds;
import limnostat.safety.Interlocks;
import limnostat.safety.ProcessWatch;

/**
 * Grants or refuses commands. Nothing here widens a limit: a value past one is refused with the
 * limit's name.
 */
final class Commands {
  private static final String QUESTION =
      "it reads above what was fed: was something added by hand? enter it as an addition";

  private Commands() {}

  record Result(ScanState state, List<ScanEvent> events) {}

  static Result apply(
      ScanSettings settings, ScanState state, List<Command.Request> requests, Now now) {
    if (requests.isEmpty()) {
      return new Result(state, List.of());
    }
    ScanState current = state;
    List<ScanEvent> events = new ArrayList<>();
    for (Command.Request request : requests) {
      Optional<Answers.Answer> first = current.asked().answers().to(request);
      if (first.isPresent()) {
        events.add(new ScanEvent.AnsweredAgain(request, first.get()));
        continue;
      }
      Optional<ScanEvent> repeat = repeatWithoutId(request, current.asked().answers());
      if (repeat.isPresent()) {
        events.add(repeat.get());
        continue;
      }
      Answers.Answer answer;
      try {
        settings.network().check(request, now);
        ScanState before = current;
        current = granted(settings, current, request, now, events);
        events.addAll(Setpoints.changes(settings, before, current, request.origin()));
        Optional<String> remark = remark(settings, request.command(), before, current);
        Optional<Additions> listed =
            request.command() instanceof Command.ListAdditions
                ? Optional.of(current.asked().additions())
                : Optional.empty();
        events.add(new ScanEvent.Accepted(request, remark, listed));
        found(before, current).map(ScanEvent.AdditionSuspected::new).ifPresent(events::add);
        answer = Answers.Answer.of(request, true, remark.orElse(""));
      } catch (Refusal refusal) {
        events.add(new ScanEvent.Refused(request, refusal.getMessage()));
        answer = Answers.Answer.of(request, false, refusal.getMessage());
      }
      // What could not be read has no document to know it again by, and no effect to double; what
      // came by no network has no repeats without an id.
      if (!request.document().isEmpty()
          && (request.requestId().isPresent() || request.overNetwork())) {
        StandingRequests asked = current.asked();
        current = current.withAsked(asked.with(asked.answers().with(answer)));
      }
    }
    return new Result(current, events);
  }

  /**
   * What may raise chlorine is not applied twice because it came twice. While it is what was asked
   * for last, it stands and is answered as before; after something else nobody can tell whether it
   * is an old wish or a new one, and the sender has to say so.
   */
  private static Optional<ScanEvent> repeatWithoutId(Command.Request request, Answers answers) {
    if (!request.overNetwork() || !request.command().mayRaiseChlorine()) {
      return Optional.empty();
    }
    return answers
        .withoutId(request)
        .map(
            first ->
                answers.latest(first)
                    ? new ScanEvent.AnsweredAgain(request, first)
                    : new ScanEvent.Refused(
                        request,
                        String.format(
                            Locale.ROOT,
                            "the very same came %.0f s ago, and something else since: without a"
                                + " request_id a repeat cannot be told from a second wish, and what"
                                + " may raise chlorine is taken once in %.0f min; send it with a"
                                + " request_id of its own",
                            first.ageS(),
                            Answers.KEPT_S / 60)));
  }

  private static ScanState granted(
      ScanSettings settings, ScanState s, Command.Request request, Now now, List<ScanEvent> events)
      throws Refusal {
    Command command = request.command();
    if (command instanceof Command.SetMode c) {
      double mostDuty = settings.setpoints().manualDutyMax();
      // Where none is asked for, the duty of the moment, as far as it is allowed.
      double duty = c.duty().orElse(Math.min(mostDuty, s.control().lastDuty()));
      SetLimit most = SetLimit.hard(1).orLower(SetLimit.installer(mostDuty, "limits.manual_duty"));
      SetLimit.within("duty", duty, SetLimit.hard(0), most, "");
      if (c.mode() != Mode.MANUAL && c.duty().isPresent()) {
        throw new Refusal("duty goes with mode manual only");
      }
      return s.withControl(s.control().withMode(c.mode(), duty))
          .withAsked(s.asked().with(manualEnd(settings, s, c)));
    }
    if (command instanceof Command.SetTarget c) {
      SetLimit.within(
          "free_chlorine_mg_l",
          c.freeChlorineMgL(),
          SetLimit.hard(HardBounds.TARGET_MIN_MG_L),
          SetLimit.hard(HardBounds.TARGET_MG_L)
              .orLower(
                  SetLimit.installer(
                      settings.limits().freeChlorineHighMgL(), "limits.free_chlorine_high")),
          " mg/L");
      return s.withControl(s.control().withTarget(c.freeChlorineMgL()));
    }
    if (command instanceof Command.Test c) {
      Optional<String> refusal = TestPlausibility.refusal(c.test());
      if (refusal.isPresent()) {
        throw new Refusal(refusal.get());
      }
      ScanState told =
          c.test().ph().isPresent()
              ? s.withMeasure(s.measure().phTested(c.test().ph().getAsDouble()))
              : s;
      WaterTest test = c.test().by(settings.estimate().kit(), BelievedNow.of(told.estimate()));
      ScanState tested = suspecting(told, test).withEstimate(Estimator.test(told.estimate(), test));
      return test.ofFreeChlorine() ? tested.withControl(s.control().tested()) : tested;
    }
    if (command instanceof Command.Add c) {
      return AdditionCommands.enter(settings, s, c, now, events);
    }
    if (command instanceof Command.UndoAddition c) {
      return AdditionCommands.undo(s, c.addition(), events);
    }
    if (command instanceof Command.ListAdditions) {
      return s;
    }
    if (command instanceof Command.Superchlorinate c) {
      return s.withControl(s.control().withSuperchlorination(superchlorination(settings, s, c)));
    }
    if (command instanceof Command.ForecastSun c) {
      return s.withSun(s.sun().withForecast(forecast(c, now.unixTimeS())));
    }
    if (command instanceof Command.FunctionCheck c) {
      return s.withSafety(s.safety().with(functionCheck(s.safety().watched(), c.forS())));
    }
    if (command instanceof Command.CalibratePh c) {
      return Calibration.ph(settings, s, c, now);
    }
    if (command instanceof Command.CalibrateOrp c) {
      return Calibration.orp(settings, s, c, now);
    }
    if (command instanceof Command.CalibrateUndo c) {
      return Calibration.undo(s, c.probe());
    }
    if (command instanceof Command.Acknowledge c) {
      return AlarmCommands.acknowledge(s, c.alarm(), events);
    }
    if (command instanceof Command.Shelve c) {
      return AlarmCommands.shelve(settings, s, c, now, events);
    }
    if (command instanceof Command.Unshelve c) {
      return AlarmCommands.unshelve(s, c.alarm(), events);
    }
    if (command instanceof Command.ResetSeason) {
      if (!request.origin().equals(Command.Request.BOARD)) {
        throw new Refusal(
            "the season's total begins anew only by a person at the board, with limnostat"
                + " season-reset on the machine; nothing on a network can do it");
      }
      return s.withTotals(s.totals().seasonBegun());
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

  /**
   * Chlorine that nobody fed or entered: the person is asked. The first test has nothing before.
   */
  private static ScanState suspecting(ScanState s, WaterTest test) {
    if (test.freeChlorineMgL().isEmpty() || s.estimate().tests().verdict() == TestVerdict.NONE) {
      return s;
    }
    double readMgL = test.freeChlorineMgL().getAsDouble();
    BelievedNow expected = BelievedNow.of(s.estimate());
    double kitSdMgL = test.kit().orElse(TestKit.UNSPECIFIED).sdMgL(readMgL);
    double sdMgL = StrictMath.sqrt(kitSdMgL * kitSdMgL + expected.sdMgL() * expected.sdMgL());
    if (!UnfedChlorine.suspected(readMgL, expected.mgL(), sdMgL)) {
      return s;
    }
    UnfedChlorine found = new UnfedChlorine(readMgL, expected.mgL(), sdMgL, 0);
    return s.withAsked(s.asked().with(s.asked().additions().suspecting(found)));
  }

  /** Of an end that is set anew the mode before the first counts. */
  private static ManualEnd manualEnd(ScanSettings settings, ScanState s, Command.SetMode c)
      throws Refusal {
    if (c.forS().isEmpty()) {
      return ManualEnd.NONE;
    }
    if (c.mode() != Mode.MANUAL) {
      throw new Refusal("minutes goes with mode manual only");
    }
    SetLimit.within(
        "minutes",
        c.forS().getAsDouble() / 60,
        SetLimit.hard(1),
        SetLimit.hard(HardBounds.MANUAL_MAX_S / 60)
            .orLower(
                SetLimit.installer(settings.setpoints().manualMaxS() / 60, "limits.manual_time")),
        " min");
    ManualEnd running = s.asked().manual();
    return running.running()
        ? new ManualEnd(c.forS().getAsDouble(), running.mode(), running.duty())
        : new ManualEnd(c.forS().getAsDouble(), s.control().mode(), s.control().manualDuty());
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
    SetLimit.within(
        "free_chlorine_mg_l",
        c.freeChlorineMgL(),
        new SetLimit(s.control().targetMgL(), "the target"),
        SetLimit.hard(HardBounds.SUPERCHLORINATION_MG_L)
            .orLower(
                SetLimit.installer(
                    settings.limits().superchlorinationMaxMgL(), "limits.superchlorination_max")),
        " mg/L");
    SetLimit.within(
        "max_hours",
        c.maxS() / 3600,
        SetLimit.hard(1),
        SetLimit.hard(HardBounds.SUPERCHLORINATION_MAX_S / 3600)
            .orLower(
                SetLimit.installer(
                    settings.setpoints().superchlorinationMaxS() / 3600,
                    "limits.superchlorination_time")),
        " h");
    return Superchlorination.begin(c.freeChlorineMgL(), c.maxS());
  }

  private static ProcessWatch functionCheck(ProcessWatch watched, double forS) throws Refusal {
    if (forS == 0) {
      if (!watched.checking()) {
        throw new Refusal("no function check runs");
      }
      return watched.checkedFor(0);
    }
    SetLimit.within(
        "minutes",
        forS / 60,
        SetLimit.hard(1),
        SetLimit.hard(HardBounds.FUNCTION_CHECK_MAX_S / 60),
        " min");
    return watched.checkedFor(forS);
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
      SetLimit.within(
          "clear_sky_fraction",
          fraction,
          SetLimit.hard(0),
          SetLimit.hard(SunForecast.FRACTION_MAX),
          "");
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
  private static Optional<String> remark(
      ScanSettings settings, Command command, ScanState before, ScanState after) {
    if (command instanceof Command.CalibratePh) {
      return Optional.of(Calibration.remark(settings, before, after, Role.PH_MV));
    }
    if (command instanceof Command.CalibrateOrp) {
      return Optional.of(Calibration.remark(settings, before, after, Role.ORP_MV));
    }
    if (command instanceof Command.CalibrateUndo c) {
      return Optional.of(Calibration.remark(settings, before, after, c.probe()));
    }
    if (command instanceof Command.Add) {
      return Optional.of(AdditionCommands.remark(before, after));
    }
    return command instanceof Command.Test c && c.test().ofFreeChlorine()
        ? both(
            remark(before.estimate().tests(), after.estimate().tests()),
            found(before, after).map(found -> QUESTION))
        : Optional.empty();
  }

  private static Optional<String> both(Optional<String> one, Optional<String> other) {
    return one.isPresent() && other.isPresent()
        ? Optional.of(one.get() + "; " + other.get())
        : one.or(() -> other);
  }

  /** What a test has found that nobody fed. */
  private static Optional<UnfedChlorine> found(ScanState before, ScanState after) {
    UnfedChlorine now = after.asked().additions().unfed();
    return Optional.of(now)
        .filter(UnfedChlorine::standing)
        .filter(unfed -> !unfed.equals(before.asked().additions().unfed()));
  }

  private static Optional<String> remark(TestLog before, TestLog after) {
    Doubted doubted = after.doubted();
    return switch (after.verdict()) {
      case DOUBTED ->
          Optional.of(
              String.format(
                  Locale.ROOT,
                  "it reads far above the %.1f mg/L of free chlorine that were expected and counts in"
                      + " part only: look at sample and reagents and test again; a second one, 5"
                      + " minutes later or more, is believed",
                  doubted.expectedMgL()));
      case BORNE_OUT -> Optional.of("it bears out the test before it, and is believed");
      case BELIEVED, NONE ->
          before.doubted().standing()
              ? Optional.of("the test before it, which contradicted, is set aside")
              : Optional.empty();
    };
  }
}
