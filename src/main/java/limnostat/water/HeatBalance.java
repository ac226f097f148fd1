package limnostat.water;

/**
 * How fast a pool's water can warm and cool at most, by the energy balance: dT/dt = q/(ρ c d) for
 * heat through the surface of water of mean depth d, P/(ρ c V) for a heater. These are bounds, not
 * predictions. What is unknown about a pool is taken at its worst.
 */
public final class HeatBalance {
  /** ρ c at 25 °C: 997 kg/m³ × 4181 J/(kg K) (CRC, from memory), J/(m³ K). */
  static final double HEAT_CAPACITY_J_M3_K = 4.168e6;

  /** Least mean depth, for a pool that nobody has measured (engineering judgement), m. */
  private static final double DEPTH_MIN_M = 0.8;

  /**
   * Sun on a horizontal plane, W/m²: 1035 with the sun overhead in a clear sky (Haurwitz 1945),
   * plus what clouds beside it may add (engineering judgement). It counts at night too, so that no
   * clock is needed.
   */
  private static final double SUN_W_M2 = 1300;

  /** Hot air over cool water, 12 K × 40 W/(m² K) in wind (engineering judgement), W/m². */
  private static final double WARM_AIR_W_M2 = 500;

  /**
   * Evaporation, convection and radiation together, W/m². From 30 °C water into dry cold air at 2
   * m/s, evaporation is 3.8 kPa × (0.089 + 0.0782 × 2) kW/(m² kPa) = 0.93 kW/m² (ASHRAE, from
   * memory), convection half of that by Bowen's ratio, radiation 0.1 to 0.2.
   */
  private static final double LOSS_W_M2 = 1500;

  /** Cold fill water or rain: 5 % of the volume in an hour, 20 K colder (judgement), K/h. */
  private static final double REFILL_K_H = 0.05 * 20;

  /**
   * Strongest domestic heater, W: 2.5 kW per m³, so 125 kW on 50 m³, and 60 kW on a small volume
   * such as a spa (engineering judgement).
   */
  private static final double HEATER_W_M3 = 2500;

  private static final double HEATER_LEAST_W = 60_000;

  private HeatBalance() {}

  /** Fastest warming by sun and air, K/s. */
  public static double warmingKS() {
    return (SUN_W_M2 + WARM_AIR_W_M2) / (HEAT_CAPACITY_J_M3_K * DEPTH_MIN_M);
  }

  /** Fastest warming by a heater, which needs flow, K/s. */
  public static double heaterKS(double volumeM3) {
    return Math.max(HEATER_W_M3, HEATER_LEAST_W / volumeM3) / HEAT_CAPACITY_J_M3_K;
  }

  /** Fastest cooling, K/s. */
  public static double coolingKS() {
    return LOSS_W_M2 / (HEAT_CAPACITY_J_M3_K * DEPTH_MIN_M) + REFILL_K_H / 3600;
  }
}
