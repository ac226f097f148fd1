package limnostat.mqtt;

/** A rate limit that allows a burst. Time is an argument; not thread-safe. */
final class TokenBucket {
  private final double perS;
  private final double burst;
  private double tokens;
  private long filledNanos;

  /**
   * @param perS tokens added per second
   * @param burst initial and maximum number of tokens
   * @param nowNanos monotonic time, ns
   */
  TokenBucket(double perS, double burst, long nowNanos) {
    this.perS = perS;
    this.burst = burst;
    this.tokens = burst;
    this.filledNanos = nowNanos;
  }

  /** Takes one token if there is one. */
  boolean take(long nowNanos) {
    tokens = Math.min(burst, tokens + (nowNanos - filledNanos) * 1e-9 * perS);
    filledNanos = nowNanos;
    if (tokens < 1) {
      return false;
    }
    tokens -= 1;
    return true;
  }
}
