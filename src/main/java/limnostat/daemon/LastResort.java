package limnostat.daemon;

/**
 * What nobody caught, in whatever thread: the outputs go off and the process ends at once, so that
 * the service manager starts it anew. Half a program is none, and one that is out of memory proves
 * nothing. Halts, since an orderly end needs what may just have failed.
 */
final class LastResort implements Thread.UncaughtExceptionHandler {
  /** Exit status: EX_SOFTWARE of sysexits.h, as of a scan that hangs. */
  static final int EXIT = HangGuard.EXIT_HUNG;

  private final Runnable outputsOff;

  LastResort(Runnable outputsOff) {
    this.outputsOff = outputsOff;
  }

  /** For all threads that have no handler of their own. */
  void install() {
    Thread.setDefaultUncaughtExceptionHandler(this);
  }

  @Override
  public void uncaughtException(Thread thread, Throwable thrown) {
    // Off first, and the words from another thread: standard error may be a pipe that nobody reads.
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
