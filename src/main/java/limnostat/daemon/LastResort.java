package limnostat.daemon;

/**
 * Handles an uncaught exception in any thread: the outputs go off and the process ends at once, so
 * that the service manager restarts it. A program that has lost a thread must not continue, and one
 * that is out of memory cannot be relied on. It halts, since an orderly exit needs what may just
 * have failed.
 */
final class LastResort implements Thread.UncaughtExceptionHandler {
  /** Exit status: EX_SOFTWARE of sysexits.h, the same as for a hung scan. */
  static final int EXIT = HangGuard.EXIT_HUNG;

  private final Runnable outputsOff;

  LastResort(Runnable outputsOff) {
    this.outputsOff = outputsOff;
  }

  /** Installs itself for all threads that have no handler of their own. */
  void install() {
    Thread.setDefaultUncaughtExceptionHandler(this);
  }

  @Override
  public void uncaughtException(Thread thread, Throwable thrown) {
    // Outputs off first; the message from another thread, as standard error may be a pipe that
    // nobody reads.
    try {
      outputsOff.run();
      Thread words = new Thread(() -> tell(thread, thrown), "last-words");
      words.setDaemon(true);
      words.start();
      words.join(1000);
      outputsOff.run();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    } finally {
      Runtime.getRuntime().halt(EXIT);
    }
  }

  private static void tell(Thread thread, Throwable thrown) {
    System.err.println(
        "<2>limnostat: "
            + thrown
            + " in thread "
            + thread.getName()
            + "; outputs off, process ended");
    thrown.printStackTrace();
  }
}
