package limnostat.mqtt;

/** A process with a link and nothing else, to be killed. */
final class LinkProcess {
  private LinkProcess() {}

  public static void main(String[] args) throws InterruptedException {
    Links.started(Integer.parseInt(args[0]));
    Thread.sleep(60_000);
  }
}
