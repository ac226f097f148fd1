package limnostat.scan;

import java.util.List;
import java.util.Optional;
import limnostat.control.Mode;
import limnostat.control.Superchlorination;
import limnostat.estimate.BelievedNow;
import limnostat.estimate.Estimator;
import limnostat.estimate.SunForecast;
import limnostat.estimate.TestKit;
import limnostat.estimate.TestVerdict;
import limnostat.estimate.UnfedChlorine;
import limnostat.estimate.WaterTest;
import limnostat.safety.Cause;
import limnostat.safety.HardBounds;
import limnostat.safety.Interlocks;
import limnostat.safety.ProcessWatch;

/**
 * The effect of each command on the state, or why it is refused. Each {@link Command} names its own
 * method.
 *
 * @param s the state before the command
 * @param events list to which the resulting events are added, for the journal
 */
record Grants(
    ScanSettings settings, ScanState s, Command.Request request, Now now, List<ScanEvent> events) {

  ScanState mode(Command.SetMode c) throws Refusal {
    double mostDuty = settings.setpoints().manualDutyMax();
    // If no duty is given, use the current duty, as far as it is allowed.
    double duty = c.duty().orElse(Math.min(mostDuty, s.control().lastDuty()));
    SetLimit most = SetLimit.hard(1).orLower(SetLimit.installer(mostDuty, "limits.manual_duty"));
    SetLimit.within("duty", duty, SetLimit.hard(0), most, "");
    if (c.mode() != Mode.MANUAL && c.duty().isPresent()) {
      throw new Refusal("duty goes with mode manual only");
    }
    return s.withControl(s.control().withMode(c.mode(), duty))
        .withAsked(s.asked().with(manualEnd(settings, s, c)));
  }

  ScanState target(Command.SetTarget c) throws Refusal {
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

  ScanState test(Command.Test c) throws Refusal {
    Optional<String> refusal = TestPlausibility.refusal(c.test());
    if (refusal.isPresent()) {
      throw new Refusal(refusal.get());
    }
    ScanState known =
        c.test().ph().isPresent()
            ? s.withMeasure(s.measure().phTested(c.test().ph().getAsDouble()))
            : s;
    WaterTest test = c.test().by(settings.estimate().kit(), BelievedNow.of(known.estimate()));
    ScanState tested = suspecting(known, test).withEstimate(Estimator.test(known.estimate(), test));
    return test.ofFreeChlorine() ? tested.withControl(s.control().tested()) : tested;
  }

  ScanState addition(Command.Add c) throws Refusal {
    return AdditionCommands.enter(settings, s, c, now, events);
  }

  ScanState additionUndone(Command.UndoAddition c) throws Refusal {
    return AdditionCommands.undo(s, c.addition(), events);
  }

  ScanState additionsListed() {
    return s;
  }

  ScanState superchlorination(Command.Superchlorinate c) throws Refusal {
    return s.withControl(s.control().withSuperchlorination(superchlorination(settings, s, c)));
  }

  ScanState sunForecast(Command.ForecastSun c) throws Refusal {
    return s.withSun(s.sun().withForecast(forecast(c, now.unixTimeS())));
  }

  ScanState functionCheck(Command.FunctionCheck c) throws Refusal {
    return s.withSafety(s.safety().with(functionCheck(s.safety().watched(), c.forS())));
  }

  ScanState calibrationPh(Command.CalibratePh c) throws Refusal {
    return Calibration.ph(settings, s, c, now);
  }

  ScanState calibrationOrp(Command.CalibrateOrp c) throws Refusal {
    return Calibration.orp(settings, s, c, now);
  }

  ScanState calibrationUndone(Command.CalibrateUndo c) throws Refusal {
    return Calibration.undo(s, c.probe());
  }

  ScanState acknowledgement(Command.Acknowledge c) throws Refusal {
    return AlarmCommands.acknowledge(s, c.alarm(), events);
  }

  ScanState shelving(Command.Shelve c) throws Refusal {
    return AlarmCommands.shelve(settings, s, c, now, events);
  }

  ScanState unshelving(Command.Unshelve c) throws Refusal {
    return AlarmCommands.unshelve(s, c.alarm(), events);
  }

  /** Allowed only at the machine. */
  ScanState seasonReset() throws Refusal {
    if (!request.origin().equals(Command.Request.BOARD)) {
      throw new Refusal(
          "the season's total begins anew only by a person at the board, with limnostat"
              + " season-reset on the machine; nothing on a network can do it");
    }
    return s.withTotals(s.totals().seasonBegun());
  }

  ScanState reset(Command.Reset c) throws Refusal {
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

  /**
   * Asks the person about chlorine that nobody fed or entered. The first test has nothing to
   * compare with.
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

  /** If the end time is replaced, return to the mode before the first one. */
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
}
