package limnostat.safety;

import limnostat.measure.Measurement;

/**
 * Checks whether pH responds to the acid that is fed, as {@link Response} does for chlorine. An
 * electrode that does not respond, or that drifts up faster than acid lowers it, would cause acid
 * to be fed without limit. Both tests use half-hour means. Both require that acid was fed without
 * effect, enough that pH should have fallen by a stated amount:
 *
 * <ul>
 *   <li><b>flat</b>: pH does not move at all;
 *   <li><b>risen</b>: pH rises and, in all that time, never falls by even a small part of the
 *       expected fall.
 * </ul>
 *
 * Once tripped, it inhibits acid until a manual pH test agrees with the electrode. Agreement shows
 * that the acid is not reaching the pool. No timeout ends it, because the reading of a dead
 * electrode does not move. The figures are engineering judgement.
 *
 * @param forS time over which the next mean has been accumulated, s
 * @param sumPhS time integral of pH, s
 * @param sinceAcidS time with a good pH signal since acid was last fed, s
 * @param least lowest mean since pH last moved
 * @param most highest mean since pH last moved
 * @param flatFall expected fall of pH since then
 * @param trough mean from which pH is rising
 * @param peak highest mean since the trough
 * @param riseFall expected fall of pH since the trough
 * @param trip the test that tripped; {@link Kind#NONE}: none
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

  /**
   * Longest time that one step between scans may count, s: nothing was observed during an outage.
   */
  private static final double SEEN_MAX_S = 60;

  /** Time in which acid mixes with most of the pool, s. */
  private static final double MIXED_S = 3600;

  /** Expected fall of pH at which a missing response trips. */
  public static final double IN_VAIN = 0.4;

  /** Means within this band count as not moved: half a mV. */
  private static final double FLAT = 0.01;

  /** A fall of this much counts as a response: about a third of the fall from a usual acid dose. */
  private static final double ANSWER = 0.03;

  /** A rise of this much, where a fall was expected, is not chance. */
  private static final double RISE = 0.1;

  /**
   * @param kind which test tripped
   * @param expectedFall expected fall of pH
   * @param moved by how much pH moved, or rose, in that time
   */
  public record Trip(Kind kind, double expectedFall, double moved) {
    static final Trip NONE = new Trip(Kind.NONE, 0, 0);
  }

  /** How the response is missing. */
  public enum Kind {
    NONE,
    FLAT,
    RISEN
  }

  public static final AcidResponse START = forgotten(Trip.NONE);

  /**
   * The inputs on one scan.
   *
   * @param expectedFall expected fall of pH from the acid fed since the last scan
   * @param agreed whether a manual test has just agreed with the electrode
   */
  public record Inputs(double expectedFall, Measurement ph, boolean agreed) {}

  private static AcidResponse forgotten(Trip trip) {
    double least = Double.POSITIVE_INFINITY;
    double most = Double.NEGATIVE_INFINITY;
    return new AcidResponse(0, 0, 0, least, most, 0, least, most, 0, trip);
  }

  /** Whether acid is fed without effect. */
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
