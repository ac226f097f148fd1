package limnostat.scan;

import java.time.Instant;
import java.time.ZoneId;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import limnostat.control.Capacity;
import limnostat.control.Feed;
import limnostat.control.Plan;
import limnostat.control.Ration;
import limnostat.control.Superchlorination;
import limnostat.estimate.Estimate;
import limnostat.estimate.Residual;
import limnostat.estimate.SlowAccount;
import limnostat.estimate.TestLog;
import limnostat.estimate.TestVerdict;
import limnostat.measure.Measurements;
import limnostat.safety.AcidResponse;
import limnostat.safety.BlindFeed;
import limnostat.safety.Cause;
import limnostat.safety.ProcessLimits;
import limnostat.safety.Response;

/**
 * What some alarms report beyond the advice of their row: a sentence or two with the current
 * numbers, rounded so that the text does not change all the time.
 */
public record AlarmDetails(
    ScanSettings settings, ScanState state, Measurements measured, Estimate estimate) {
  private static final double DAY_S = 86_400;

  /** Most configuration changes that are listed one by one. */
  private static final int CHANGES_TOLD = 5;

  /** Ratio of a superchlorination's level to the combined chlorine (common practice, no source). */
  private static final double BREAKPOINT = 10;

  /**
   * @return empty if the cause is not active now, or has nothing to add
   */
  public Optional<String> of(Cause cause) {
    if (!state.safety().active().contains(cause)) {
      return Optional.empty();
    }
    return switch (cause) {
      case FLOW_MISSING -> measured.flowMissing().map(why -> "The flow signal: " + why + ".");
      case ORP_FAILURE -> probes().orp();
      case PH_FAILURE -> probes().ph();
      case WATER_FAILURE -> probes().water();
      case PH_DISAGREES -> Optional.of(probes().disagreement());
      case WATER_DISAGREES -> Optional.of(probes().impossible());
      case PH_UNEXPLAINED -> Optional.of(probes().unexplained());
      case ACID_NO_RESPONSE -> Optional.of(unansweredAcid());
      case PROBE_WORN -> Optional.of(probes().worn());
      case CALIBRATION_DUE -> Optional.of(probes().due());
      case FREE_CHLORINE_HIGH ->
          tests().doubted().freshMgL() > 0 ? Optional.of(contradicted()) : Optional.empty();
      case NO_RESPONSE -> Optional.of(unanswered());
      case ORP_FALLING -> Optional.of(falling());
      case FEEDING_BLIND, BLIND_FEED_LOW, BLIND_FEED_SPENT -> Optional.of(blind());
      case CHLORINE_DOUBTFUL -> Optional.of(odds());
      case CHLORINE_USED_UP ->
          Optional.of(
              text(
                  "The last test read %.1f mg/L, %s ago.",
                  tests().freeChlorineMgL(), days(tests().freeChlorineAgeS())));
      case STARVED_BY_ORP -> Optional.of(starved());
      case CELL_CURRENT_LOW -> Optional.of(expectedCurrent());
      case CELL_OVER_CURRENT -> Optional.of(currentLimit());
      case CONFIGURATION_CHANGED -> Optional.of(changes());
      case TEST_OVERDUE -> Optional.of(overdue());
      case ESTIMATE_UNSURE -> Optional.of(belief());
      case OUTPUT_TOO_SMALL -> Optional.of(capacity());
      case TEST_DUE -> Optional.of(due());
      case COMBINED_CHLORINE_HIGH -> Optional.of(combined());
      default -> Optional.empty();
    };
  }

  private ProbeDetails probes() {
    return new ProbeDetails(
        state.asked().calibrations().on(settings.measure()), state.measure(), measured.upkeep());
  }

  private TestLog tests() {
    return state.estimate().tests();
  }

  private String unanswered() {
    Response.Trip trip = state.safety().watched().response().trip();
    return switch (trip.kind()) {
      case NONE -> "";
      case FLAT ->
          text(
              "ORP moved by no more than %.1f mV while %.1f mg/L of chlorine were fed: look at the"
                  + " probe first.",
              trip.mv(), trip.fedMgL());
    };
  }

  private String falling() {
    Response response = state.safety().watched().response();
    return text(
        "ORP fell by %.0f mV and never rose while %.1f mg/L of chlorine were fed.",
        response.peakMv() - response.troughMv(), response.fallMgL());
  }

  /** What is left of the blind budget, about how long it lasts, and what restores it. */
  private String blind() {
    BlindFeed blind = state.safety().blind();
    double budgetMgL = settings.limits().blindFeedMgL();
    if (blind.fedMgL() == Double.POSITIVE_INFINITY) {
      return "Nothing has confirmed the water yet, so nothing is fed. One test of free chlorine that"
          + " is entered does, or ORP, pH and temperature that are good.";
    }
    double leftMgL = blind.leftMgL(budgetMgL);
    double endMgL = BlindFeed.endMgL(budgetMgL);
    double lastsDays =
        leftMgL > endMgL ? Ration.lastsDays(leftMgL, endMgL, estimate.demandMgLDay()) : 0;
    return text(
        "%.1f of %.1f mg/L (limits.blind_feed) are left%s. One test of free chlorine that is entered"
            + " gives all of it back.",
        leftMgL,
        budgetMgL,
        lastsDays > 0
            ? text(", less and less a day, for about %.0f days", StrictMath.ceil(lastsDays))
            : "");
  }

  private String odds() {
    return text(
        "Free chlorine is below %.0f mg/L with a probability of %.0f %% by all that is known, of"
            + " %.0f %% by doses and tests alone. %s",
        Residual.MINIMUM_MG_L,
        100 * estimate.residual().gone(),
        100 * estimate.residual().goneByBalance(),
        tests().verdict() == TestVerdict.NONE
            ? "No test was entered yet."
            : "The last test that is believed is " + days(tests().freeChlorineAgeS()) + " old.");
  }

  private String starved() {
    Plan plan = state.control().plan();
    return text(
        "With ORP the plan is a duty of %.2f now, by doses and tests alone %.2f.",
        plan.duty(), plan.balanceDuty());
  }

  private String unansweredAcid() {
    AcidResponse.Trip trip = state.safety().watched().acid().trip();
    return switch (trip.kind()) {
      case NONE -> "";
      case FLAT ->
          text(
              "pH moved by no more than %.2f while acid was fed that should have lowered it by %.1f:"
                  + " look at the electrode first.",
              trip.moved(), trip.expectedFall());
      case RISEN ->
          text(
              "pH rose by %.2f and never fell while acid was fed that should have lowered it by"
                  + " %.1f: look at tank and feeder, then at the electrode.",
              trip.moved(), trip.expectedFall());
    };
  }

  private String expectedCurrent() {
    double waterC = state.estimate().waterC();
    double usualA = settings.limits().process().cellUsualA().orElse(0);
    SlowAccount slow = state.estimate().slow();
    return text(
        "At full duty and %.0f °C %.1f A are expected; salt is taken to be %.0f mg/L, give or take"
            + " %.0f.",
        waterC, ProcessLimits.expectedA(usualA, 1, waterC), slow.salt().mgL(), slow.salt().sdMgL());
  }

  private String currentLimit() {
    return text(
        "limits.cell_current_max is %.1f A.", settings.limits().process().cellMaxA().orElse(0));
  }

  private String changes() {
    List<String> all = state.safety().watched().configured().changes();
    String few = String.join("; ", all.subList(0, Math.min(CHANGES_TOLD, all.size())));
    return all.size() <= CHANGES_TOLD
        ? few + "."
        : few + text("; and %d more.", all.size() - CHANGES_TOLD);
  }

  private String overdue() {
    return text(
        "The last test that is believed, or the first scan where there is none, is %s ago;"
            + " limits.test_overdue is %s.",
        days(tests().freeChlorineAgeS()), days(settings.limits().process().testOverdueS()));
  }

  private String belief() {
    return text(
        "Free chlorine is taken to be %.1f mg/L, give or take %.1f; %s.",
        estimate.freeChlorineMgL(),
        estimate.freeChlorineSdMgL(),
        switch (tests().verdict()) {
          case NONE -> "no test was entered yet";
          case BELIEVED, BORNE_OUT, DOUBTED ->
              "the last test that is believed is " + days(tests().freeChlorineAgeS()) + " old";
        });
  }

  private String contradicted() {
    return text(
        "The last test read %.1f mg/L of free chlorine where %.1f was expected, and counts in"
            + " part only, until a second bears it out.",
        tests().doubted().readMgL(), tests().doubted().expectedMgL());
  }

  private String due() {
    return switch (estimate.testDue()) {
      case UNCERTAIN, NONE ->
          belief()
              + " Test free chlorine, and pH with it"
              + bestHour(state.control().plan().lowestUnixS(), settings.control().zone())
              + ".";
      case CONTRADICTED ->
          contradicted() + " Test free chlorine again, with a fresh sample and fresh reagents.";
      case STABILISER ->
          text(
              "Stabiliser is taken to be %.0f mg/L %s: test it.",
              state.estimate().slow().cyanuricAcidMgL(),
              tests().stabiliserTested()
                  ? "from a test " + days(tests().stabiliserAgeS()) + " ago"
                  : "and was never tested");
    };
  }

  /**
   * The hour at which a test tells most: what is not known about the day's use shows most then, and
   * the remaining chlorine matters most.
   */
  static String bestHour(double lowestUnixS, ZoneId zone) {
    return lowestUnixS > 0
        ? text(
            "; at about %02d:00 a test tells most, as free chlorine is then at its lowest",
            Instant.ofEpochSecond(Math.round(lowestUnixS) + 1800).atZone(zone).getHour())
        : "";
  }

  private String combined() {
    double combinedMgL = tests().combinedChlorineMgL();
    double wantedMgL = BREAKPOINT * combinedMgL;
    double mostMgL = settings.limits().superchlorinationMaxMgL();
    String level =
        wantedMgL <= mostMgL
            ? text("Superchlorinate to %.1f mg/L", wantedMgL)
            : text(
                "Superchlorinate to %.1f mg/L, the most that limits.superchlorination_max allows,"
                    + " of the %.1f that it would take, more than once or with fresh water beside",
                mostMgL, wantedMgL);
    return text(
        "The last test found %.1f mg/L. %s (ten times as much, both as Cl2: common practice)."
            + " Nobody bathes until the re-entry hold is over: %.0f h later, and at %.0f mg/L or"
            + " less.",
        combinedMgL,
        level,
        Superchlorination.REENTRY_S / 3600,
        Superchlorination.BATHING_LIMIT_MG_L);
  }

  private String capacity() {
    Capacity capacity = state.control().capacity();
    Feed feed = settings.chlorine().feed();
    double pumpH = settings.control().pumpS() / 3600;
    double gain = capacity.bringsGDay() / feed.dayG(pumpH);
    double wantedG = capacity.neededGDay() / gain;
    return text(
        "The pool uses about %s g of chlorine a day at the target of %.1f mg/L; the output brings"
            + " about %s g: %s, in %s h of pump a day, of which about %.0f %% is believed to"
            + " arrive. %s",
        rounded(capacity.neededGDay()),
        state.control().targetMgL(),
        rounded(capacity.bringsGDay()),
        label(feed, pumpH),
        rounded(pumpH),
        100 * gain,
        mend(feed, wantedG, pumpH));
  }

  /** What limits the amount per day. */
  private static String label(Feed feed, double pumpH) {
    if (feed.dayCapG() < feed.hourG() * pumpH) {
      return text("limits.chlorine_day allows %s g", rounded(feed.dayCapG()));
    }
    if (feed.hourCapG() < feed.rateGH()) {
      return text("limits.chlorine_hour allows %s g an hour", rounded(feed.hourCapG()));
    }
    return text("%s g/h at full duty", rounded(feed.rateGH()));
  }

  private static String mend(Feed feed, double wantedG, double pumpH) {
    double wantedH = StrictMath.ceil(wantedG / feed.hourG());
    String hours =
        wantedH > 24
            ? "24 h of pump would not do: a larger output is wanted, or less use"
            : text("%.0f h of pump a day would do", wantedH);
    if (wantedG <= feed.dayCapG()) {
      return hours + ".";
    }
    String cap = text("limits.chlorine_day would have to be %.0f g", StrictMath.ceil(wantedG));
    return wantedH > pumpH ? cap + ", and then " + hours + "." : cap + ".";
  }

  private static String days(double seconds) {
    double days = StrictMath.floor(seconds / DAY_S);
    return days == 1 ? "1 day" : text("%.0f days", days);
  }

  /** Two significant figures are enough for an estimate. */
  private static String rounded(double value) {
    return text(value < 10 ? "%.1f" : "%.0f", value);
  }

  private static String text(String format, Object... values) {
    return String.format(Locale.ROOT, format, values);
  }
}
