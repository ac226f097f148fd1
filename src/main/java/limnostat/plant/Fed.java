package limnostat.plant;

/**
 * What the feeders gave in one step.
 *
 * @param chlorineG chlorine as Cl2, g
 * @param cyanuricAcidG stabiliser, g
 * @param saltG sodium chloride, g
 * @param alkalinityMol alkalinity, mol; acid counts negative
 */
record Fed(double chlorineG, double cyanuricAcidG, double saltG, double alkalinityMol) {
  static final Fed NOTHING = new Fed(0, 0, 0, 0);

  Fed plus(Fed other) {
    return new Fed(
        chlorineG + other.chlorineG,
        cyanuricAcidG + other.cyanuricAcidG,
        saltG + other.saltG,
        alkalinityMol + other.alkalinityMol);
  }
}
