package limnostat.safety;

import limnostat.measure.Measurement;

/**
 * Whether ORP answers what is fed (S10). Both signs are of half-hour means, and both want a stated
 * amount of chlorine to have been fed in vain, so that an output that is merely too small, a party
 * or a storm is none:
 *
 * <ul>
 *   <li><b>flat</b>: ORP as measured does not move at all, as of a probe or front end that is dead
 *       but not frozen. In a pool that is fed a live electrode moves with free chlorine, pH and
 *       temperature. After 30 h of it a quarter of the amount is enough: a probe that is dead a
 *       little above the setpoint has less and less fed, until the pool has none.
 *   <li><b>fallen</b>: ORP falls ever further below its setpoint, which goes with pH, temperature
 *       and stabiliser but not with what was learned from ORP, and in all the while is never seen
 *       to rise. In the pump's hours even a small output lifts it for a while; without any free
 *       chlorine halves within a day or two.
 * </ul>
 *
 * The figures are engineering judgement. On 96 simulated wide pools over 60 days (seeds 1 to 4) a
 * band of 1.5 mV and a single amount locked out two healthy ones: a steady pool, and one whose
 * output was too small in a heat wave and that fell by 48 mV. With half the band none was flat, and
 * while one and a half amounts (6 mg/L) were fed none fell by more than 23 mV.
 *
 * @param window ORP gathered for the next mean
 * @param leastMv least mean of ORP since it last moved, mV
 * @param mostMv most, mV
 * @param flatMgL fed since it last moved, mg/L
 * @param flatS time of good ORP since it last moved, s
 * @param peakMv ORP beyond its setpoint from which it falls, mV
 * @param troughMv how far it has fallen, mV beyond the setpoint
 * @param fallMgL fed since the peak, mg/L
 * @param trip the last trip, for people
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

  /** A step between scans weighs no more than this, s: nobody looked during an outage. */
  private static final double SEEN_MAX_S = 60;

  /** Means within this band have not moved, mV: noise of a dead input averages to less. */
  private static final double FLAT_MV = 0.5;

  /** Flat for so long, s of good ORP, ... */
  private static final double FLAT_LONG_S = 30 * 3600.0;

  /** ... it wants this share of the amount. */
  private static final double FLAT_LONG_AMOUNTS = 0.25;

  /** A fall wants so many times the stated amount: an output that is too small can fall as well. */
  private static final double FALL_AMOUNTS = 1.5;

  /** So near to the peak nothing has fallen, mV. */
  private static final double NEAR_MV = 3;

  /** A rise by so much is an answer, mV: more than the scatter of a mean. */
  private static final double RISE_MV = 8;

  /** A fall by so much is no accident, mV: 3 to 0.8 mg/L at the nominal slope. */
  private static final double FALL_MV = 28;

  /** Electrodes drift, and so does the peak, mV a day. */
  private static final double DRIFT_MV_DAY = 3;

  private static final double DAY_S = 86_400;

  /** What has not answered. */
  public enum Kind {
    NONE,
    FLAT
  }

  /**
   * @param fedMgL what was fed in vain, mg/L by the label
   * @param mv by how much ORP moved, or fell, all the while, mV
   */
  public record Trip(Kind kind, double fedMgL, double mv) {
    static final Trip NONE = new Trip(Kind.NONE, 0, 0);
  }

  /**
   * @param forS for how long it has been gathered, s
   * @param sumMvS sum of ORP by time, mV s
   * @param beyondMvS the same of ORP beyond its setpoint, mV s
   */
  public record Window(double forS, double sumMvS, double beyondMvS) {
    static final Window EMPTY = new Window(0, 0, 0);
  }

  /**
   * What it is judged from on one scan.
   *
   * @param fedMgL chlorine fed since the last scan, by the label, mg/L
   * @param orpMv ORP, mV
   * @param setpointMv ORP that the electrode should show at the target, mV
   * @param tested whether a person's test has just moved that setpoint
   * @param raised whether a superchlorination runs: far up an electrode shows little
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

  /** Nothing fed in vain yet. */
  Response forgotten() {
    return forgotten(trip);
  }

  /**
   * @param mostMgL fed in vain from which on there is no response, mg/L
   */
  Response step(Inputs in, double mostMgL, double elapsedS) {
    boolean falling = falling(mostMgL);
    if (in.raised) {
      return falling ? this : forgotten();
    }
    // What has fallen is ended by a rise or a test, and not by standing still for long enough.
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
    // The mean that moved may be half of one thing and half of another: the next one is the first.
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
   * Whether ORP has only fallen while far more than that was fed. It may be the electrode that
   * creeps or the output that gives nothing; a rise or a test tells, and until then chlorine is
   * limited.
   *
   * @param mostMgL as of {@link #step}, mg/L
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
    // What was fed in vain is told once; after a reset it takes as much again.
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
