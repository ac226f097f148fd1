package limnostat.plant;

/**
 * The equilibrium constants at a temperature, at ionic strength 0.
 *
 * <p>Carbonate: Harned and Davis (1943) for Henry's constant and K1, Harned and Scholes (1941) for
 * K2 [memory]; at 25 °C they give 1.466, 6.351, 10.330, against Plummer and Busenberg's 1.468,
 * 6.352, 10.329. Cyanurate: the temperature set of Wahman (2018), Environ. Sci.: Water Res.
 * Technol. 4:1522, and Wahman and Alexander (2019), Environ. Eng. Sci. 36:283 [checked, abstracts].
 * HOCl: Morris (1966) [memory].
 *
 * @param waterC the temperature, °C
 * @param henry CO2(g) = CO2(aq), mol/(L atm)
 * @param k1 CO2(aq) + H2O = H+ + HCO3-, mol/L
 * @param k2 HCO3- = H+ + CO3--, mol/L
 * @param kw H2O = H+ + OH-, mol²/L²
 * @param kHocl HOCl = H+ + OCl-, mol/L
 * @param k6 H3Cy = H+ + H2Cy-, mol/L
 * @param k7 Cl2Cy- + H2O = HClCy- + HOCl, mmol/L
 * @param k9 HClCy- + H2O = H2Cy- + HOCl, mmol/L
 */
record Constants(
    double waterC,
    double henry,
    double k1,
    double k2,
    double kw,
    double kHocl,
    double k6,
    double k7,
    double k9) {

  static Constants at(double waterC) {
    double kelvin = Ions.kelvin(waterC);
    return new Constants(
        waterC,
        Ions.antilog(2385.73 / kelvin - 14.0184 + 0.0152642 * kelvin),
        Ions.antilog(-3404.71 / kelvin + 14.8435 - 0.032786 * kelvin),
        Ions.antilog(-2902.39 / kelvin + 6.4980 - 0.02379 * kelvin),
        Ions.antilog(-4470.99 / kelvin + 6.0875 - 0.01706 * kelvin),
        Ions.antilog(-3000 / kelvin + 10.0686 - 0.0253 * kelvin),
        Ions.antilog(-1743 / kelvin - 1.12),
        1000 * Ions.antilog(-2028 / kelvin + 2.15),
        1000 * Ions.antilog(-2229 / kelvin + 1.65));
  }
}
