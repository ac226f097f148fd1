package limnostat.water;

/**
 * Chlorine and cyanurate in equilibrium, each species in mol/L. Cy = C3N3O3; the numbers count the
 * atoms on the ring, and {@code Minus} gives the charge.
 */
public record ChlorineSpecies(
    double hoclMolL,
    double oclMinusMolL,
    double cl3CyMolL,
    double hCl2CyMolL,
    double cl2CyMinusMolL,
    double h2ClCyMolL,
    double hClCyMinusMolL,
    double clCy2MinusMolL,
    double h3CyMolL,
    double h2CyMinusMolL,
    double hCy2MinusMolL,
    double cy3MinusMolL) {
  /** All chlorine that a DPD test reads as free. */
  public double chlorineMolL() {
    return unboundMolL()
        + h2ClCyMolL
        + hClCyMinusMolL
        + clCy2MinusMolL
        + 2 * (hCl2CyMolL + cl2CyMinusMolL)
        + 3 * cl3CyMolL;
  }

  /** Chlorine not bound to a ring: HOCl + OCl⁻. */
  public double unboundMolL() {
    return hoclMolL + oclMinusMolL;
  }

  /** All cyanurate, chlorinated or not. */
  public double cyanurateMolL() {
    return cl3CyMolL
        + hCl2CyMolL
        + cl2CyMinusMolL
        + h2ClCyMolL
        + hClCyMinusMolL
        + clCy2MinusMolL
        + h3CyMolL
        + h2CyMinusMolL
        + hCy2MinusMolL
        + cy3MinusMolL;
  }

  /** Negative charge of all species, eq/L: their part of alkalinity, relative to HOCl and H3Cy. */
  public double chargeEqL() {
    return oclMinusMolL
        + cl2CyMinusMolL
        + hClCyMinusMolL
        + h2CyMinusMolL
        + 2 * (clCy2MinusMolL + hCy2MinusMolL)
        + 3 * cy3MinusMolL;
  }
}
