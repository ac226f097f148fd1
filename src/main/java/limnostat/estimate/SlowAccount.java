package limnostat.estimate;

import limnostat.water.Alkalinity;
import limnostat.water.ChlorineForm;
import limnostat.water.Dose;

/**
 * The account of what changes over weeks: what comes with the chlorine and acid that are fed, what
 * is lost with replaced water, and what a person's tests show. It is updated once an hour.
 *
 * @param stabiliser cyanuric acid
 * @param salt as NaCl
 * @param calciumHardness as CaCO3
 * @param totalAlkalinity as CaCO3; acid reduces it
 * @param acidMlDay acid of 31.45 % that the pool gets in a day from the program's feed or with the
 *     chlorine, mean over about a week, mL
 * @param fileStabiliserMgL stabiliser in the configuration file when it was last used, mg/L; −1:
 *     none
 * @param fileSaltMgL the same for salt
 * @param pending what has happened since the last update
 */
public record SlowAccount(
    Dissolved stabiliser,
    Dissolved salt,
    Dissolved calciumHardness,
    Dissolved totalAlkalinity,
    double acidMlDay,
    double fileStabiliserMgL,
    double fileSaltMgL,
    Pending pending) {

  /**
   * Amounts not yet booked.
   *
   * @param forS time, s
   * @param chlorineG chlorine that went in, g
   * @param acidMl acid that went in, mL
   */
  public record Pending(double forS, double chlorineG, double acidMl) {
    static final Pending NOTHING = new Pending(0, 0, 0);
  }

  private static final double MOVE_S = 3600;
  private static final double DAY_S = 86_400;
  private static final double ACID_MEAN_DAYS = 7;
  private static final double NOT_IN_FILE = -1;

  /** Natural loss of stabiliser, about 3 mg/L per month (common practice, no source). */
  private static final double STABILISER_LOSS_MG_L_DAY = 0.1;

  // Uncertainties of the drift, as shares of the calculated amounts (engineering judgement):
  // replaced water and lost stabiliser by as much again, the output's label, the strength of the
  // acid.
  private static final double REPLACED_UNSURE = 1;
  private static final double LOSS_UNSURE = 1;
  private static final double OUTPUT_UNSURE = 0.2;
  private static final double ACID_UNSURE = 0.5;

  /**
   * Above this deviation, or this relative one, stabiliser is not known well (engineering
   * judgement).
   */
  private static final double UNSURE_SD_MG_L = 15;

  private static final double UNSURE_SD_SHARE = 0.25;

  /** Salt as NaCl that an equivalent of hydrochloric acid leaves, g (from memory). */
  private static final double NACL_G_EQ = 58.443;

  // Defaults if nothing is configured (engineering judgement), wide enough that the first test
  // counts almost fully. Salt for a cell: 2500 to 6000 mg/L overall (water-chemistry section 6);
  // hardness 200 to 400 mg/L and alkalinity 60 to 180 mg/L (section 10).
  private static final Dissolved STABILISER_NOT_CONFIGURED = new Dissolved(30, 40, 0);
  private static final Dissolved SALT_OF_CELL_NOT_CONFIGURED = new Dissolved(3200, 1000, 0);
  private static final Dissolved SALT_NOT_CONFIGURED = new Dissolved(1000, 800, 0);
  private static final Dissolved HARDNESS_NOT_CONFIGURED = new Dissolved(250, 150, 0);
  private static final Dissolved ALKALINITY_NOT_CONFIGURED = new Dissolved(100, 40, 0);

  /** The initial account when nothing was saved. */
  static SlowAccount start(SlowSettings configured) {
    boolean cell = configured.form() == ChlorineForm.SALT_CELL;
    return new SlowAccount(
        TestError.STABILISER.first(configured.cyanuricAcidMgL(), STABILISER_NOT_CONFIGURED),
        TestError.SALT.first(
            configured.saltMgL(), cell ? SALT_OF_CELL_NOT_CONFIGURED : SALT_NOT_CONFIGURED),
        HARDNESS_NOT_CONFIGURED,
        ALKALINITY_NOT_CONFIGURED,
        0,
        configured.cyanuricAcidMgL().orElse(NOT_IN_FILE),
        configured.saltMgL().orElse(NOT_IN_FILE),
        Pending.NOTHING);
  }

  /** Best estimate of stabiliser, mg/L. */
  public double cyanuricAcidMgL() {
    return stabiliser.mgL();
  }

  /** Whether stabiliser was never entered, or too long ago to be known well. */
  boolean stabiliserUnsure() {
    return stabiliser.sdMgL() > Math.max(UNSURE_SD_MG_L, UNSURE_SD_SHARE * stabiliser.mgL());
  }

  /**
   * Time passes, and the water itself changes.
   *
   * @param chlorineG chlorine that went in, g
   * @param acidMl acid that went in, mL
   * @param elapsedS time since the last step, s
   */
  public SlowAccount step(EstimateSettings pool, double chlorineG, double acidMl, double elapsedS) {
    Pending now =
        new Pending(
            pending.forS + elapsedS, pending.chlorineG + chlorineG, pending.acidMl + acidMl);
    return now.forS >= MOVE_S
        ? moved(pool, now)
        : new SlowAccount(
            stabiliser,
            salt,
            calciumHardness,
            totalAlkalinity,
            acidMlDay,
            fileStabiliserMgL,
            fileSaltMgL,
            now);
  }

  private SlowAccount moved(EstimateSettings pool, Pending now) {
    ChlorineForm form = pool.slow().form();
    double days = now.forS / DAY_S;
    double replaced = pool.slow().makeUpM3Week() / 7 * days / pool.volumeM3();
    double chlorineMgL = now.chlorineG / pool.volumeM3();
    double acidEqM3 = now.acidMl / Dose.muriaticAcidMl(1, Dose.MURIATIC_PERCENT) / pool.volumeM3();
    double acidMl = now.acidMl + now.chlorineG * form.acidBroughtMlPerG();
    return new SlowAccount(
        stabiliser(replaced, form.cyanuricAcidPerMg() * chlorineMgL, days),
        thinned(salt, replaced, form.saltPerMg() * chlorineMgL + NACL_G_EQ * acidEqM3),
        refilled(calciumHardness, replaced, form.calciumHardnessPerMg() * chlorineMgL, 0),
        refilled(
            totalAlkalinity,
            replaced,
            form.alkalinityPerMg() * chlorineMgL,
            acidEqM3 * Alkalinity.CACO3_MG_EQ / 1000),
        acidMlDay + (acidMl / days - acidMlDay) * (1 - StrictMath.exp(-days / ACID_MEAN_DAYS)),
        fileStabiliserMgL,
        fileSaltMgL,
        Pending.NOTHING);
  }

  private Dissolved stabiliser(double replaced, double broughtMgL, double days) {
    double lost = Math.min(stabiliser.mgL(), STABILISER_LOSS_MG_L_DAY * days);
    Dissolved thinned = thinned(stabiliser, replaced, broughtMgL);
    return thinned.changed(thinned.mgL() - lost, LOSS_UNSURE * lost);
  }

  /** Fill water contains none: C = C0 exp(−V/V0), with additions spread evenly over the time. */
  private static Dissolved thinned(Dissolved c, double replaced, double broughtMgL) {
    double left = StrictMath.exp(-replaced);
    return c.changed(
        c.mgL() * left + broughtMgL * StrictMath.sqrt(left),
        REPLACED_UNSURE * c.mgL() * (1 - left) + OUTPUT_UNSURE * broughtMgL);
  }

  /**
   * Fill water is itself hard and alkaline, and evaporation leaves that behind. On balance about as
   * much comes as goes (engineering judgement), so the mean stays and only the deviation grows.
   *
   * @param broughtMgL what came with the chlorine, mg/L; below 0 if that is acid
   * @param takenMgL what acid removed, mg/L
   */
  private static Dissolved refilled(
      Dissolved c, double replaced, double broughtMgL, double takenMgL) {
    return c.changed(
        c.mgL() + broughtMgL - takenMgL,
        REPLACED_UNSURE * c.mgL() * (1 - StrictMath.exp(-replaced))
            + OUTPUT_UNSURE * Math.abs(broughtMgL)
            + ACID_UNSURE * takenMgL);
  }

  /** A person's test. It changes the knowledge of the water, not the water. */
  SlowAccount tested(WaterTest test) {
    return new SlowAccount(
        TestError.STABILISER.tested(stabiliser, test.cyanuricAcidMgL()),
        TestError.SALT.tested(salt, test.saltMgL()),
        TestError.CALCIUM_HARDNESS.tested(calciumHardness, test.calciumHardnessMgL()),
        TestError.TOTAL_ALKALINITY.tested(totalAlkalinity, test.totalAlkalinityMgL()),
        acidMlDay,
        fileStabiliserMgL,
        fileSaltMgL,
        pending);
  }

  /** After a restart, a changed value in the configuration file counts as a test. */
  SlowAccount resumed(SlowSettings configured) {
    double stabiliserMgL = configured.cyanuricAcidMgL().orElse(NOT_IN_FILE);
    double saltMgL = configured.saltMgL().orElse(NOT_IN_FILE);
    return new SlowAccount(
        stabiliserMgL == fileStabiliserMgL
            ? stabiliser
            : TestError.STABILISER.tested(stabiliser, configured.cyanuricAcidMgL()),
        saltMgL == fileSaltMgL ? salt : TestError.SALT.tested(salt, configured.saltMgL()),
        calciumHardness,
        totalAlkalinity,
        acidMlDay,
        stabiliserMgL,
        saltMgL,
        pending);
  }
}
