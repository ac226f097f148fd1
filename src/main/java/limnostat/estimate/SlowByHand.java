package limnostat.estimate;

/** Effect of a person's additions on the account of what changes over weeks. */
final class SlowByHand {
  /**
   * Default content of fill water, mg/L as CaCO3, with its deviation (engineering judgement: soft
   * to hard, water-chemistry section 10).
   */
  private static final double FILL_HARDNESS_MG_L = 150;

  private static final double FILL_HARDNESS_SD_MG_L = 100;
  private static final double FILL_ALKALINITY_MG_L = 100;
  private static final double FILL_ALKALINITY_SD_MG_L = 60;

  /** Relative error of the volume of replaced water (engineering judgement). */
  private static final double REPLACED_UNSURE = 0.2;

  /** Least share of old water left: with less, the calculation cannot be reversed. */
  private static final double LEAST_LEFT = 0.1;

  private SlowByHand() {}

  /**
   * Something went in.
   *
   * @param unsure relative deviation of the change
   */
  static SlowAccount changed(SlowAccount a, WaterChange change, double unsure) {
    return with(
        a,
        moved(a.stabiliser(), change.stabiliserMgL(), unsure),
        moved(a.salt(), change.saltMgL(), unsure),
        moved(a.calciumHardness(), change.calciumHardnessMgL(), unsure),
        moved(a.totalAlkalinity(), change.totalAlkalinityMgL(), unsure));
  }

  private static Dissolved moved(Dissolved c, double byMgL, double unsure) {
    return c.changed(c.mgL() + byMgL, unsure * Math.abs(byMgL));
  }

  /** A share of the water was replaced: C (1 − f) + fill f. */
  static SlowAccount replaced(SlowAccount a, double share) {
    return with(
        a,
        mixed(a.stabiliser(), share, 0, 0),
        mixed(a.salt(), share, 0, 0),
        mixed(a.calciumHardness(), share, FILL_HARDNESS_MG_L, FILL_HARDNESS_SD_MG_L),
        mixed(a.totalAlkalinity(), share, FILL_ALKALINITY_MG_L, FILL_ALKALINITY_SD_MG_L));
  }

  private static Dissolved mixed(Dissolved c, double share, double fillMgL, double fillSdMgL) {
    double next = c.mgL() + share * (fillMgL - c.mgL());
    return c.changed(
        next, share * fillSdMgL + REPLACED_UNSURE * share * Math.abs(fillMgL - c.mgL()));
  }

  /**
   * Reverses a replacement entered by mistake: (C − fill f)/(1 − f), with a deviation that grows
   * with the move.
   */
  static SlowAccount notReplaced(SlowAccount a, double share) {
    return with(
        a,
        unmixed(a.stabiliser(), share, 0),
        unmixed(a.salt(), share, 0),
        unmixed(a.calciumHardness(), share, FILL_HARDNESS_MG_L),
        unmixed(a.totalAlkalinity(), share, FILL_ALKALINITY_MG_L));
  }

  private static Dissolved unmixed(Dissolved c, double share, double fillMgL) {
    double next = Math.max(0, (c.mgL() - fillMgL * share) / Math.max(LEAST_LEFT, 1 - share));
    return c.changed(next, REPLACED_UNSURE * Math.abs(next - c.mgL()));
  }

  private static SlowAccount with(
      SlowAccount a,
      Dissolved stabiliser,
      Dissolved salt,
      Dissolved calciumHardness,
      Dissolved totalAlkalinity) {
    return new SlowAccount(
        stabiliser,
        salt,
        calciumHardness,
        totalAlkalinity,
        a.acidMlDay(),
        a.fileStabiliserMgL(),
        a.fileSaltMgL(),
        a.pending());
  }
}
