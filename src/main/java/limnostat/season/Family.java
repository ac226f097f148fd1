package limnostat.season;

import java.util.EnumSet;
import java.util.Set;

/** What is strange about strange pools; the rest of them is as wide ones are. */
public enum Family {
  /** The ORP electrode: flattened, creeping, wandering, slow, fallen in dead water. */
  ELECTRODE,
  /** Sun, algae, what falls and washes in, dilution, parties, and the stabiliser as configured. */
  WATER,
  /** Kits, when people test, what they misread and what they pour. */
  PEOPLE,
  /** Outputs, how they fade, pump hours, volume and label as configured. */
  PLANT,
  /** All of these. */
  ALL;

  /** The parts that it makes strange. */
  Set<Family> parts() {
    return this == ALL ? EnumSet.complementOf(EnumSet.of(ALL)) : EnumSet.of(this);
  }
}
