package limnostat.daemon;

/**
 * The machine's monotonic clock, which two processes of a boot share, made to run faster: hours of
 * caps pass in a test's minute.
 */
final class HurriedClock implements Clock {
  /** Simulated seconds a second; {@code -Dlimnostat.speed} for others. */
  static final double SPEED = Double.parseDouble(System.getProperty("limnostat.speed", "100"));

  /** 2026-07-01 10:00 UTC, at the boot of the machine. */
  private static final double BOOT_UNIX_S = 1_782_900_000;

  /** Of this boot of the machine, hurried. */
  static BootClock ofBoot() {
    BootClock real = BootClock.ofSystem();
    return new BootClock(real.id(), real.uptimeS() * SPEED, new HurriedClock());
  }

  @Override
  public double monotonicS() {
    return System.nanoTime() / 1e9 * SPEED;
  }

  @Override
  public double unixTimeS() {
    return BOOT_UNIX_S + monotonicS();
  }

  @Override
  public boolean trusted() {
    return true;
  }
}
