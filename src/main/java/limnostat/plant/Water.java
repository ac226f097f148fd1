package limnostat.plant;

/**
 * One well-mixed body of water. The fields that mix in proportion to volume come first. The others
 * are the equilibrium that follows from them. 1 mg/L in 1 m³ is 1 g, 1 mmol/L is 1 mol.
 */
final class Water {
  final double volumeM3;

  double freeChlorineMgL;
  double combinedChlorineMgL;

  /**
   * What people and rain brought and chlorine has yet to oxidise, mg/L as the Cl2 that it consumes.
   */
  double loadMgL;

  double cyanuricAcidMgL;
  double saltMgL;

  /** Strong-ion alkalinity, so including hypochlorite and cyanurate, mmol/L. */
  double alkalinityMmolL;

  /** CO2, bicarbonate and carbonate together, mmol/L. */
  double carbonMmolL;

  double temperatureC;

  private Constants constants = Constants.at(25);

  double ph = 7.5;
  double carbonDioxideMmolL;

  /** Free chlorine as HOCl, as OCl- and bound to cyanurate, mg/L as Cl2. */
  double hoclMgL;

  double oclMgL;
  double boundMgL;

  /** Negative charge that chlorine adds, beyond that of the cyanurate that it displaces, mmol/L. */
  double chlorineChargeMmolL;

  Water(double volumeM3) {
    this.volumeM3 = volumeM3;
  }

  /**
   * The equilibrium constants, recomputed when the temperature changes by a thousandth of a degree.
   * That changes them by a ten-thousandth, while they are known to a hundredth. A pool takes
   * seconds to minutes for such a change.
   */
  Constants constants() {
    if (StrictMath.abs(temperatureC - constants.waterC()) > 0.001) {
      constants = Constants.at(temperatureC);
    }
    return constants;
  }

  /** Copies the quantities that mix. */
  void copyFrom(Water other) {
    freeChlorineMgL = other.freeChlorineMgL;
    combinedChlorineMgL = other.combinedChlorineMgL;
    loadMgL = other.loadMgL;
    cyanuricAcidMgL = other.cyanuricAcidMgL;
    saltMgL = other.saltMgL;
    alkalinityMmolL = other.alkalinityMmolL;
    carbonMmolL = other.carbonMmolL;
    temperatureC = other.temperatureC;
  }

  /** A volume of other water comes in, and the same volume of this water leaves. */
  void receive(Water from, double inM3) {
    double share = inM3 / volumeM3;
    freeChlorineMgL += (from.freeChlorineMgL - freeChlorineMgL) * share;
    combinedChlorineMgL += (from.combinedChlorineMgL - combinedChlorineMgL) * share;
    loadMgL += (from.loadMgL - loadMgL) * share;
    cyanuricAcidMgL += (from.cyanuricAcidMgL - cyanuricAcidMgL) * share;
    saltMgL += (from.saltMgL - saltMgL) * share;
    alkalinityMmolL += (from.alkalinityMmolL - alkalinityMmolL) * share;
    carbonMmolL += (from.carbonMmolL - carbonMmolL) * share;
    temperatureC += (from.temperatureC - temperatureC) * share;
  }

  /**
   * Rain falls in and the pool overflows. Everything dissolved is diluted; the temperature does not
   * change.
   */
  void dilute(double left) {
    freeChlorineMgL *= left;
    combinedChlorineMgL *= left;
    loadMgL *= left;
    cyanuricAcidMgL *= left;
    saltMgL *= left;
    alkalinityMmolL *= left;
    carbonMmolL *= left;
  }

  /** Adds a share of what the feeders fed. */
  void add(Fed fed, double share) {
    freeChlorineMgL += fed.chlorineG() * share / volumeM3;
    cyanuricAcidMgL += fed.cyanuricAcidG() * share / volumeM3;
    saltMgL += fed.saltG() * share / volumeM3;
    alkalinityMmolL += fed.alkalinityMol() * share / volumeM3;
  }

  /** Chlorine ends as chloride: HOCl = H+ + Cl- + what was oxidised. */
  void spend(double chlorineMgL) {
    freeChlorineMgL -= chlorineMgL;
    alkalinityMmolL -= chlorineMgL / Cyanurate.CHLORINE_MG_MMOL;
    saltMgL += 0.824 * chlorineMgL; // NaCl per Cl2: 58.443 / 70.906 [computed]
  }
}
