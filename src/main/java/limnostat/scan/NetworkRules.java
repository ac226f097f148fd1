package limnostat.scan;

import java.util.Collections;
import java.util.EnumSet;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * What the installer allows commands to do that come over the network.
 *
 * @param allowed what commands may do
 * @param ageS how old a command that states its time may be, and how far ahead, s
 */
public record NetworkRules(Set<Permit> allowed, double ageS) {
  /** Allows everything, of any age; for a demo and for tests. */
  public static final NetworkRules OPEN =
      new NetworkRules(EnumSet.allOf(Permit.class), Double.POSITIVE_INFINITY);

  /**
   * @throws IllegalArgumentException if the age is not above 0
   */
  public NetworkRules {
    EnumSet<Permit> ordered = EnumSet.noneOf(Permit.class);
    ordered.addAll(allowed);
    allowed = Collections.unmodifiableSet(ordered);
    if (!(ageS > 0)) {
      throw new IllegalArgumentException("an age of " + ageS + " s");
    }
  }

  /** Whether commands with a {@link Permit#key} may come over the network. */
  public boolean allows(String key) {
    return Permit.ofKey(key).map(allowed::contains).orElse(false);
  }

  /** Refuses a command that is not allowed, or too old to be still intended. */
  void check(Command.Request request, Now now) throws Refusal {
    permitted(request);
    if (request.sentUnixS().isPresent() && now.clockTrusted()) {
      fresh(request.sentUnixS(), now);
    }
  }

  private void permitted(Command.Request request) throws Refusal {
    Set<Permit> enough = request.command().permits();
    if (request.overNetwork() && !enough.isEmpty() && Collections.disjoint(enough, allowed)) {
      throw new Refusal(
          "the installer's mqtt.allow does not have "
              + enough.stream()
                  .map(permit -> '"' + permit.key() + '"')
                  .collect(Collectors.joining(" or ")));
    }
  }

  private void fresh(OptionalDouble sentUnixS, Now now) throws Refusal {
    double age = now.unixTimeS() - sentUnixS.getAsDouble();
    if (!(Math.abs(age) <= ageS)) {
      throw new Refusal(
          String.format(
              Locale.ROOT,
              "it is stale: its time is %.0f s %s, and mqtt.command_age is %.0f s; send it again,"
                  + " and look at the sender's clock and zone",
              Math.abs(age),
              age < 0 ? "ahead" : "old",
              ageS));
    }
  }
}
