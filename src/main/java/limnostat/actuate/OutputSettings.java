package limnostat.actuate;

/**
 * How a demanded duty becomes an output.
 *
 * @param drive relay (time proportioned) or proportional
 * @param cycleS period of the time proportioning, s
 * @param minOnS shortest on time, s; an interlock still turns off at once
 * @param minOffS shortest off time, s
 * @param longestRunS longest uninterrupted on time, s, after which the output rests
 * @param restS off time after the longest run, s
 */
public record OutputSettings(
    Drive drive, double cycleS, double minOnS, double minOffS, double longestRunS, double restS) {

  /** What the output drives. */
  public enum Drive {
    RELAY,
    PROPORTIONAL
  }
}
