package limnostat.safety;

import limnostat.measure.Measurement;

/**
 * Whether pH answers the acid that is fed, as {@link Response} does for chlorine: an electrode that
 * does not, or that drifts up faster than acid lowers it, would have acid fed without end. Both
 * signs are of half-hour means, and both want acid to have been fed in vain by which pH should have
 * fallen by a stated amount:
 *
 * <ul>
 *   <li><b>flat</b>: pH does not move at all;
 *   <li><b>risen</b>: pH rises, and in all the while never falls by a small part of what it should.
 * </ul>
 *
 * It stands, and no acid is fed, until a person's test of pH agrees with the electrode: then it is
 * the acid that does not come. No time ends it, as what a dead electrode shows stands still. The
 * figures are engineering judgement.
 *
 * @param forS for how long the next mean has been gathered, s
 * @param sumPhS sum of pH by time, s
 * @param sinceAcidS time of good pH since acid was last fed, s
 * @param least least mean since pH last moved
 * @param most most
 * @param flatFall by how much pH should have fallen since then
 * @param trough mean from which it rises
 * @param peak how high it has risen
 * @param riseFall by how much it should have fallen since the trough
 * @param trip what has not answered; {@link Kind#NONE}: nothing
 */
public record AcidResponse(
    double forS,
    double sumPhS,
    double sinceAcidS,
    double least,
    double most,
    double flatFall,
    double trough,
    double peak,
    double riseFall,
    Trip trip) {

  private static final double WINDOW_S = 1800;

  /** A step between scans weighs no more than this, s: nobody looked during an outage. */
  private static final double SEEN_MAX_S = 60;

  /** Acid has mixed with most of the pool by then, s. */
  private static final double MIXED_S = 3600;

  /** A fall that should have been, from which on there is no response. */
  public static final double IN_VAIN = 0.4;

  /** Means within this band have not moved: half a mV. */
  private static final double FLAT = 0.01;

  /** A fall by so much is an answer: about a third of what a usual turn of acid makes. */
  private static final double ANSWER = 0.03;

  /** A rise by so much, where a fall was to be expected, is no accident. */
  private static final double RISE = 0.1;

  /**
   * @param kind what has not answered
   * @param expectedFall by how much pH should have fallen
   * @param moved by how much it moved, or rose, all the while
   */
  public record Trip(Kind kind, double expectedFall, double moved) {
    static final Trip NONE = new Trip(Kind.NONE, 0, 0);
  }

  /** What has not answered. */
  public enum Kind {
    NONE,
    FLAT,
    RISEN
  }

  public static final AcidResponse START = forgotten(Trip.NONE);

  /**
   * What it is judged from on one scan.
   *
   * @param expectedFall by how much pH should fall by what was fed since the last scan
   * @param agreed whether a person's test has just agreed with the electrode
   */
  public record Inputs(double expectedFall, Measurement ph, boolean agreed) {}

  private static AcidResponse forgotten(Trip trip) {
    double least = Double.POSITIVE_INFINITY;
    double most = Double.NEGATIVE_INFINITY;
    return new AcidResponse(0, 0, 0, least, most, 0, least, most, 0, trip);
  }

  /** Whether acid is fed in vain. */
  public boolean unanswered() {
    return trip.kind != Kind.NONE;
  }

  AcidResponse step(Inputs in, double elapsedS) {
    if (in.agreed) {
      return START;
    }
    if (unanswered()) {
      return this;
    }
    boolean seen = in.ph.fresh();
    double seenS = seen ? Math.min(SEEN_MAX_S, elapsedS) : 0;
    AcidResponse next =
        new AcidResponse(
            forS + seenS,
            sumPhS + in.ph.orElse(0) * seenS,
            in.expectedFall > 0 ? 0 : sinceAcidS + seenS,
            least,
            most,
            flatFall + in.expectedFall,
            trough,
            peak,
            riseFall + in.expectedFall,
            trip);
    return next.forS < WINDOW_S ? next : next.looked();
  }

  private AcidResponse looked() {
    double mean = sumPhS / forS;
    double low = Math.min(least, mean);
    double high = Math.max(most, mean);
    boolean flat = high - low <= FLAT;
    double top = Math.max(peak, mean);
    boolean answered = mean <= top - ANSWER || mean <= trough;
    AcidResponse next =
        new AcidResponse(
            0,
            0,
            sinceAcidS,
            flat ? low : mean,
            flat ? high : mean,
            flat ? flatFall : 0,
            answered ? mean : trough,
            answered ? mean : top,
            answered ? 0 : riseFall,
            trip);
    return sinceAcidS < MIXED_S ? next : next.judged();
  }

  private AcidResponse judged() {
    if (flatFall >= IN_VAIN) {
      return forgotten(new Trip(Kind.FLAT, flatFall, most - least));
    }
    return riseFall >= IN_VAIN && peak - trough >= RISE
        ? forgotten(new Trip(Kind.RISEN, riseFall, peak - trough))
        : this;
  }
}
