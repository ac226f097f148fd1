package limnostat.season;

import java.util.EnumSet;
import java.util.Set;

/** The aspects in which strange pools differ; in everything else they are like wide ones. */
public enum Family {
  /**
   * The ORP electrode: flattened, creeping, wandering, slow, or fallen in water without chlorine.
   */
  ELECTRODE,
  /** Sun, algae, organic matter, dilution, parties, and the configured stabiliser. */
  WATER,
  /** Kits, when people test, what they misread, and what they pour. */
  PEOPLE,
  /** Outputs and how they fade, pump hours, and the configured volume and label. */
  PLANT,
  /** All of these. */
  ALL;

  /** The parts that are strange. */
  Set<Family> parts() {
    return this == ALL ? EnumSet.complementOf(EnumSet.of(ALL)) : EnumSet.of(this);
  }
}
