package limnostat.safety;

/**
 * The program's own bounds. No installer's limit and no command can exceed them. The values are
 * engineering judgement based on the sources named.
 */
public final class HardBounds {
  private HardBounds() {}

  /**
   * Highest ORP limit, mV; platinum probes in pools read about 600–800 mV (water-chemistry, from
   * memory).
   */
  public static final double ORP_HIGH_MV = 900;

  /**
   * Highest free-chlorine limit in normal running, mg/L: maximum of 22 CCR 65529 (California public
   * pools).
   */
  public static final double FREE_CHLORINE_HIGH_MG_L = 10;

  /** Highest free chlorine of a superchlorination, mg/L (engineering judgement). */
  public static final double SUPERCHLORINATION_MG_L = 20;

  /** Highest free-chlorine target in normal running, mg/L (engineering judgement). */
  public static final double TARGET_MG_L = 8;

  /**
   * Lowest free-chlorine target that may be set at run time, mg/L: the minimum for public pools in
   * 22 CCR 65529 (California).
   */
  public static final double TARGET_MIN_MG_L = 1;

  /** Longest superchlorination, s (engineering judgement). */
  public static final double SUPERCHLORINATION_MAX_S = 48 * 3600.0;

  /** Longest manual mode with an end time, s (engineering judgement: a week). */
  public static final double MANUAL_MAX_S = 7 * 86_400.0;

  /** Longest time for which an alarm may be shelved, s (engineering judgement: a day). */
  public static final double SHELF_MAX_S = 24 * 3600.0;

  /** Shortest time for which an alarm may be shelved, s (engineering judgement). */
  public static final double SHELF_MIN_S = 60;

  /** Highest limit of the water temperature, °C (engineering judgement: spas end at 40). */
  public static final double WATER_MAX_C = 45;

  /** Most chlorine in a rolling hour, as a rise of the whole pool, mg/L (engineering judgement). */
  public static final double CHLORINE_HOUR_MG_L = 5;

  /** Most chlorine in a rolling day, as a rise of the whole pool, mg/L (engineering judgement). */
  public static final double CHLORINE_DAY_MG_L = 20;

  /**
   * Most acid in a rolling day, mL of acid as fed per m³ of pool (engineering judgement: 20 mL/m³
   * of 31 % HCl removes 10 mg/L of alkalinity).
   */
  public static final double ACID_DAY_ML_M3 = 20;

  /**
   * Chlorine is never dosed outside this pH range. Below it chlorine gas becomes a risk; above it
   * little of the chlorine is active.
   */
  public static final double PH_DOSING_MIN = 6.5;

  public static final double PH_DOSING_MAX = 8.5;

  /** Shortest proving time of flow, s (engineering judgement: a switch must settle). */
  public static final double FLOW_PROVING_MIN_S = 5;

  /** Shortest separation between chlorine and acid, s (engineering judgement). */
  public static final double SEPARATION_MIN_S = 60;

  /**
   * Most chlorine that may be fed while nothing trustworthy measures it, mg/L of the pool: the
   * difference between the highest limit of a bathing code and a usual target.
   */
  public static final double BLIND_FEED_MG_L = 8;

  /** Most chlorine that may be fed with no response of ORP, mg/L (engineering judgement). */
  public static final double NO_RESPONSE_MG_L = 8;

  /** Longest unbroken on time of an output, s: it rests at least once a day. */
  public static final double LONGEST_RUN_S = 24 * 3600.0;

  /**
   * Highest limit on a cell's current, A (engineering judgement; a domestic cell takes 3 to 15).
   */
  public static final double CELL_CURRENT_A = 100;

  /** Longest function check, s: after it, probes forgotten in a bucket are noticed. */
  public static final double FUNCTION_CHECK_MAX_S = 4 * 3600.0;

  /** Longest time until a manual test is overdue, s (engineering judgement). */
  public static final double TEST_OVERDUE_MAX_S = 60 * 86_400.0;

  /**
   * Longest scan period of the daemon, s (engineering judgement: a loss of flow must turn the
   * outputs off within one scan).
   */
  public static final double SCAN_PERIOD_MAX_S = 10;

  /** Most restarts that may be configured for a window (engineering judgement). */
  public static final int RESTARTS_MAX = 100;

  /** Longest step between scans that is not a gap, s. */
  public static final double SCAN_GAP_S = 60;
}
