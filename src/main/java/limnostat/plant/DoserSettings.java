package limnostat.plant;

/** The kind of chlorine feeder and its figures. */
public sealed interface DoserSettings {

  /** Chlorine that its label promises at full duty under its nominal conditions, g/h. */
  double labelGH();

  /** The same feeder of another size. */
  DoserSettings withLabelGH(double labelGH);

  /**
   * A salt cell.
   *
   * @param labelGH g/h of chlorine at the nominal efficiency
   * @param gaps gaps between plates in series
   * @param nominalEfficiency current efficiency that the label counts on, 0–1
   * @param outputFactor what it really gives over what the label says, 0.75–1.25
   * @param supplyMaxV the supply's highest voltage, V
   * @param wearPerKh share of its output that a new cell loses in its first 1000 h at full current
   */
  record SaltCell(
      double labelGH,
      int gaps,
      double nominalEfficiency,
      double outputFactor,
      double supplyMaxV,
      double wearPerKh)
      implements DoserSettings {
    /** Its current when it makes what its label says, A. */
    public double labelA() {
      return labelGH / (Cell.G_PER_AH * gaps * nominalEfficiency);
    }

    @Override
    public SaltCell withLabelGH(double newLabelGH) {
      return new SaltCell(newLabelGH, gaps, nominalEfficiency, outputFactor, supplyMaxV, wearPerKh);
    }
  }

  /**
   * A pump for hypochlorite.
   *
   * @param labelGH g/h of chlorine with fresh liquid
   * @param tradePercent fresh strength, g Cl2 in 100 mL
   * @param outputFactor what the pump really moves over what it should
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
   * A valve before an erosion feeder with trichlor tablets.
   *
   * @param labelGH g/h of chlorine with the valve open and a full feeder
   * @param outputFactor what it really gives over that
   * @param stockG chlorine in a filling, g; refilled by a person who is not modelled
   */
  record TrichlorTablets(double labelGH, double outputFactor, double stockG)
      implements DoserSettings {
    @Override
    public TrichlorTablets withLabelGH(double newLabelGH) {
      return new TrichlorTablets(newLabelGH, outputFactor, stockG);
    }
  }
}
