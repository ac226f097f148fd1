package limnostat.safety;

import limnostat.measure.Measurement;

/**
 * Checks whether ORP responds to the chlorine that is fed (S10). Both tests use half-hour means.
 * Both require that a stated amount of chlorine was fed without effect, so an output that is merely
 * too small, a party or a storm does not trigger them:
 *
 * <ul>
 *   <li><b>flat</b>: ORP as measured does not move at all, as with a probe or front end that is
 *       dead but not frozen. In a pool that is fed, a live electrode moves with free chlorine, pH
 *       and temperature. After 30 h of flat ORP a quarter of the amount is enough: a dead probe
 *       that reads slightly above the setpoint reduces the feed further and further, until the pool
 *       has no chlorine.
 *   <li><b>fallen</b>: ORP falls further and further below its setpoint and is never seen to rise.
 *       The setpoint follows pH, temperature and stabiliser, but not what was learned from ORP.
 *       During the pump's hours even a small output raises ORP for a while. Without any output,
 *       free chlorine halves within a day or two.
 * </ul>
 *
 * The figures are engineering judgement. On 96 simulated pools of the {@code wide} set over 60 days
 * (seeds 1 to 4), a band of 1.5 mV and a single amount locked out two healthy pools: a steady pool,
 * and one whose output was too small in a heat wave and whose ORP fell by 48 mV. With half that
 * band none was flat. While one and a half amounts (6 mg/L) were fed, none fell by more than 23 mV.
 *
 * @param window ORP accumulated for the next mean
 * @param leastMv lowest mean of ORP since it last moved, mV
 * @param mostMv highest mean of ORP since it last moved, mV
 * @param flatMgL chlorine fed since it last moved, mg/L
 * @param flatS time with a good ORP signal since it last moved, s
 * @param peakMv ORP relative to its setpoint from which it falls, mV
 * @param troughMv lowest ORP relative to its setpoint since the peak, mV
 * @param fallMgL chlorine fed since the peak, mg/L
 * @param trip the last trip, for display
 * @param now whether it trips on this scan
 */
public record Response(
    Window window,
    double leastMv,
    double mostMv,
    double flatMgL,
    double flatS,
    double peakMv,
    double troughMv,
    double fallMgL,
    Trip trip,
    boolean now) {

  public static final Response START = forgotten(Trip.NONE);

  private static final double WINDOW_S = 1800;

  /**
   * Longest time that one step between scans may count, s: nothing was observed during an outage.
   */
  private static final double SEEN_MAX_S = 60;

  /** Means within this band count as not moved, mV: the noise of a dead input averages to less. */
  private static final double FLAT_MV = 0.5;

  /** Time with a good but flat ORP signal after which a smaller amount is enough, s. */
  private static final double FLAT_LONG_S = 30 * 3600.0;

  /** Share of the stated amount that is enough after that time. */
  private static final double FLAT_LONG_AMOUNTS = 0.25;

  /**
   * A fall requires this many times the stated amount: with too small an output ORP can fall too.
   */
  private static final double FALL_AMOUNTS = 1.5;

  /** Within this distance of the peak ORP counts as not fallen, mV. */
  private static final double NEAR_MV = 3;

  /** A rise of this much counts as a response, mV: more than the scatter of a mean. */
  private static final double RISE_MV = 8;

  /** A fall of this much is not chance, mV: from 3 to 0.8 mg/L at the nominal slope. */
  private static final double FALL_MV = 28;

  /** Electrodes drift, so the peak is lowered at this rate, mV per day. */
  private static final double DRIFT_MV_DAY = 3;

  private static final double DAY_S = 86_400;

  /** How the response is missing. */
  public enum Kind {
    NONE,
    FLAT
  }

  /**
   * @param fedMgL chlorine fed without effect, mg/L by the label
   * @param mv by how much ORP moved, or fell, in that time, mV
   */
  public record Trip(Kind kind, double fedMgL, double mv) {
    static final Trip NONE = new Trip(Kind.NONE, 0, 0);
  }

  /**
   * @param forS accumulated time, s
   * @param sumMvS time integral of ORP, mV s
   * @param beyondMvS time integral of ORP relative to its setpoint, mV s
   */
  public record Window(double forS, double sumMvS, double beyondMvS) {
    static final Window EMPTY = new Window(0, 0, 0);
  }

  /**
   * The inputs on one scan.
   *
   * @param fedMgL chlorine fed since the last scan, by the label, mg/L
   * @param orpMv ORP, mV
   * @param setpointMv ORP that the electrode should show at the target, mV
   * @param tested whether a manual test has just moved that setpoint
   * @param raised whether a superchlorination is running: at high levels an electrode shows little
   */
  public record Inputs(
      double fedMgL, Measurement orpMv, double setpointMv, boolean tested, boolean raised) {}

  private static Response forgotten(Trip trip) {
    return new Response(
        Window.EMPTY,
        Double.POSITIVE_INFINITY,
        Double.NEGATIVE_INFINITY,
        0,
        0,
        Double.NEGATIVE_INFINITY,
        Double.POSITIVE_INFINITY,
        0,
        trip,
        false);
  }

  /** Starts again, with nothing fed without effect yet. */
  Response forgotten() {
    return forgotten(trip);
  }

  /**
   * @param mostMgL amount fed without effect that counts as no response, mg/L
   */
  Response step(Inputs in, double mostMgL, double elapsedS) {
    boolean falling = falling(mostMgL);
    if (in.raised) {
      return falling ? this : forgotten();
    }
    // A rise or a test ends a fall; an ORP that stands still for long enough does not.
    double drifted = falling ? peakMv : peakMv - DRIFT_MV_DAY * elapsedS / DAY_S;
    double peak = in.tested ? Double.NEGATIVE_INFINITY : drifted;
    Response fed =
        new Response(
            in.tested ? Window.EMPTY : gathered(in, elapsedS),
            leastMv,
            mostMv,
            flatMgL + in.fedMgL,
            flatS,
            peak,
            in.tested ? Double.POSITIVE_INFINITY : troughMv,
            in.tested ? 0 : fallMgL + in.fedMgL,
            trip,
            false);
    return fed.window.forS < WINDOW_S ? fed : fed.moved().fallen().judged(mostMgL);
  }

  private Window gathered(Inputs in, double elapsedS) {
    if (!in.orpMv.fresh()) {
      return window;
    }
    double seenS = Math.min(SEEN_MAX_S, elapsedS);
    double mv = in.orpMv.orElse(0);
    return new Window(
        window.forS + seenS,
        window.sumMvS + mv * seenS,
        window.beyondMvS + (mv - in.setpointMv) * seenS);
  }

  private Response moved() {
    double mean = window.sumMvS / window.forS;
    double least = Math.min(leastMv, mean);
    double most = Math.max(mostMv, mean);
    boolean flat = most - least <= FLAT_MV;
    // The mean that moved may mix old and new values, so the next mean is the first of the new
    // band.
    return new Response(
        window,
        flat ? least : Double.POSITIVE_INFINITY,
        flat ? most : Double.NEGATIVE_INFINITY,
        flat ? flatMgL : 0,
        flat ? flatS + window.forS : 0,
        peakMv,
        troughMv,
        fallMgL,
        trip,
        false);
  }

  private Response fallen() {
    double mean = window.beyondMvS / window.forS;
    double trough = Math.min(troughMv, mean);
    boolean answered = mean >= peakMv - NEAR_MV || mean >= trough + RISE_MV;
    double peak = mean >= trough + RISE_MV ? mean : Math.max(peakMv, mean);
    return new Response(
        Window.EMPTY,
        leastMv,
        mostMv,
        flatMgL,
        flatS,
        answered ? peak : peakMv,
        answered ? mean : trough,
        answered ? 0 : fallMgL,
        trip,
        false);
  }

  /**
   * Whether ORP has only fallen while far more than that amount was fed. Either the electrode
   * creeps or the output gives nothing. A rise or a test decides; until then chlorine is limited.
   *
   * @param mostMgL as in {@link #step}, mg/L
   */
  boolean falling(double mostMgL) {
    return fallMgL >= FALL_AMOUNTS * mostMgL && peakMv - troughMv >= FALL_MV;
  }

  private double flatAmounts() {
    return flatS >= FLAT_LONG_S ? FLAT_LONG_AMOUNTS : 1;
  }

  private Response judged(double mostMgL) {
    Trip next =
        flatMgL >= flatAmounts() * mostMgL
            ? new Trip(Kind.FLAT, flatMgL, mostMv - leastMv)
            : Trip.NONE;
    if (next.kind == Kind.NONE) {
      return this;
    }
    // The trip is reported once; after a reset it takes the same amount again.
    Response rest = forgotten(next);
    return new Response(
        rest.window,
        rest.leastMv,
        rest.mostMv,
        rest.flatMgL,
        rest.flatS,
        rest.peakMv,
        rest.troughMv,
        rest.fallMgL,
        next,
        true);
  }
}
