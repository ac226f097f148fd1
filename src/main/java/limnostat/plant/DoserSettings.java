package limnostat.plant;

/** The type of chlorine feeder and its parameters. */
public sealed interface DoserSettings {

  /** Chlorine output at full duty under nominal conditions according to the label, g/h. */
  double labelGH();

  /** The same feeder in another size. */
  DoserSettings withLabelGH(double labelGH);

  /**
   * A salt cell.
   *
   * @param labelGH chlorine output at the nominal efficiency, g/h
   * @param gaps gaps between plates in series
   * @param nominalEfficiency current efficiency on which the label is based, 0–1
   * @param outputFactor real output as a ratio to the label's, 0.75–1.25
   * @param supplyMaxV maximum voltage of the power supply, V
   * @param wearPerKh rate at which its output fades, 1/(1000 h at full current)
   */
  record SaltCell(
      double labelGH,
      int gaps,
      double nominalEfficiency,
      double outputFactor,
      double supplyMaxV,
      double wearPerKh)
      implements DoserSettings {
    /** Its current when it makes the output on its label, A. */
    public double labelA() {
      return labelGH / (Cell.G_PER_AH * gaps * nominalEfficiency);
    }

    @Override
    public SaltCell withLabelGH(double newLabelGH) {
      return new SaltCell(newLabelGH, gaps, nominalEfficiency, outputFactor, supplyMaxV, wearPerKh);
    }
  }

  /**
   * A pump for liquid hypochlorite.
   *
   * @param labelGH chlorine output with fresh liquid, g/h
   * @param tradePercent strength when fresh, g Cl2 in 100 mL
   * @param outputFactor real delivery of the pump as a ratio to the rated one
   * @param tankL volume of the tank, full at the start, L
   * @param decayPerDay loss of strength at 25 °C, 1/day
   */
  record Liquid(
      double labelGH, double tradePercent, double outputFactor, double tankL, double decayPerDay)
      implements DoserSettings {
    @Override
    public Liquid withLabelGH(double newLabelGH) {
      return new Liquid(newLabelGH, tradePercent, outputFactor, tankL, decayPerDay);
    }
  }

  /**
   * A valve in front of an erosion feeder with trichlor tablets.
   *
   * @param labelGH chlorine output with the valve open and a full feeder, g/h
   * @param outputFactor real output as a ratio to that
   * @param stockG chlorine in one filling, g; a person, who is not modelled, refills it
   */
  record TrichlorTablets(double labelGH, double outputFactor, double stockG)
      implements DoserSettings {
    @Override
    public TrichlorTablets withLabelGH(double newLabelGH) {
      return new TrichlorTablets(newLabelGH, outputFactor, stockG);
    }
  }
}
