package limnostat.alarm;

/**
 * A person has shelved an alarm for a time. The shelf ends by running time, like everything here,
 * or by a trusted wall clock if that is earlier. An outage that cannot be proven must not keep an
 * alarm silent for longer than a person asked for.
 *
 * @param leftS time left, s; 0: not shelved
 * @param untilUnixS when it ends by the wall clock, Unix s; infinite: the clock was not trusted
 */
public record Shelf(double leftS, double untilUnixS) {
  public static final Shelf NONE = new Shelf(0, Double.POSITIVE_INFINITY);

  /** A shelf read back from a ledger is validated like any untrusted input. */
  public Shelf {
    if (!(leftS >= 0) || Double.isInfinite(leftS)) {
      throw new IllegalArgumentException("a shelf's time is finite and positive, is " + leftS);
    }
  }

  public boolean running() {
    return leftS > 0;
  }

  static Shelf of(double seconds, double unixTimeS, boolean clockTrusted) {
    return new Shelf(seconds, clockTrusted ? unixTimeS + seconds : Double.POSITIVE_INFINITY);
  }

  Shelf after(double elapsedS, double unixTimeS, boolean clockTrusted) {
    boolean over = elapsedS >= leftS || (clockTrusted && unixTimeS >= untilUnixS);
    return over ? NONE : new Shelf(leftS - elapsedS, untilUnixS);
  }

  /** Cuts the remaining time to a limit that may have become lower. */
  Shelf within(double maxS) {
    return leftS > maxS ? new Shelf(maxS, untilUnixS) : this;
  }
}
