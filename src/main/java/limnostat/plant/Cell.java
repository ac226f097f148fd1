package limnostat.plant;

import java.util.Map;
import limnostat.measure.Role;
import limnostat.measure.Signal;

/** A salt cell on a power supply that regulates its current up to a maximum voltage. */
final class Cell implements Doser {
  /** Chlorine per ampere-hour and gap: 70.906 g/mol / (2 x 96485.33 C/mol) x 3600 s [computed]. */
  static final double G_PER_AH = 70.906 / (2 * 96_485.33212) * 3600;

  /** Decomposition voltage and overvoltage of one gap, V [judgement]. */
  private static final double GAP_V = 2.6;

  /** Resistive drop of one gap at nominal current, 3500 mg/L of salt and 25 °C, V [judgement]. */
  private static final double GAP_DROP_V = 1.8;

  private static final double NOMINAL_SALT_MG_L = 3500;

  private final DoserSettings.SaltCell settings;
  private final double nominalA;
  private final Noise noise;
  private double currentA;
  private double voltageV;

  /** Hours at full current so far, which wear the coating. */
  private double usedH;

  Cell(DoserSettings.SaltCell settings, Noise noise) {
    this.settings = settings;
    this.noise = noise;
    this.nominalA = settings.labelA();
  }

  @Override
  public Fed feed(double dtS, double command, boolean flows, Water line) {
    noise.advance(dtS);
    // Conductivity is proportional to salt and rises 2 % per degree near 25 °C.
    double conductivity =
        StrictMath.max(0.02, line.saltMgL / NOMINAL_SALT_MG_L)
            * StrictMath.max(0.4, 1 + 0.02 * (line.temperatureC - 25));
    double dropAtNominalV = GAP_DROP_V / conductivity;
    double headroomV = StrictMath.max(0, settings.supplyMaxV() / settings.gaps() - GAP_V);
    currentA = nominalA * StrictMath.min(command, headroomV / dropAtNominalV);
    voltageV = currentA > 0 ? settings.gaps() * (GAP_V + dropAtNominalV * currentA / nominalA) : 0;
    usedH += currentA / nominalA * dtS / 3600;
    double leftOfNew = StrictMath.exp(-settings.wearPerKh() * usedH / 1000);
    double chlorineG =
        chlorineGH(
                currentA, settings.gaps(), efficiency(line) * settings.outputFactor() * leftOfNew)
            * dtS
            / 3600;
    // Cl- + H2O = OCl- + H2: the hypochlorite counts as a base until it is consumed.
    return new Fed(chlorineG, 0, -0.824 * chlorineG, chlorineG / Cyanurate.CHLORINE_MG_MMOL);
  }

  /** {@code g/h = 1.3228 x I x gaps x CE}. */
  static double chlorineGH(double currentA, int gaps, double efficiency) {
    return G_PER_AH * currentA * gaps * efficiency;
  }

  /** Current efficiency, lower in cold water and at low salt [practice, figures judgement]. */
  private double efficiency(Water line) {
    double cold = 0.01 * StrictMath.max(0, 20 - line.temperatureC);
    double weak = 0.15 * StrictMath.max(0, 2800 - line.saltMgL) / 1000;
    return settings.nominalEfficiency() * StrictMath.max(0, 1 - cold) * StrictMath.max(0, 1 - weak);
  }

  @Override
  public Map<Role, Signal> signals() {
    double shownA = currentA > 0 ? currentA * (1 + noise.value()) : 0;
    return Map.of(Role.CELL_A, new Signal.Analog(shownA), Role.CELL_V, new Signal.Analog(voltageV));
  }

  @Override
  public double strippingFraction() {
    return currentA / nominalA;
  }
}
